import { cpSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { folder, velamen } from '../cli/world.js';
import { launch, withoutBrowser } from './browser.js';
import { axeFinds, type Built, builtPage, visit } from './built.js';
import { goTo } from './places.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const MOSS = join(root, 'examples', 'moss-without-ammonium');

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true });
const squeezed = (text: string | null): string => (text ?? '').replace(/\s+/g, ' ').trim();

async function writtenOut(page: Page, name: string | RegExp): Promise<string> {
  const [written] = await Promise.all([page.waitForEvent('download'), button(page, name).click()]);
  return readFileSync(await written.path(), 'utf8');
}

describe.skipIf(withoutBrowser())('what to buy, and the year', () => {
  let browser: Browser;
  let built: Built;
  beforeAll(async () => {
    built = builtPage();
    browser = await launch();
  });
  afterAll(async () => {
    await browser?.close();
    built?.remove();
  });

  it('buys as the command line does; a search can be stopped, and nothing else waits for it', async () => {
    const { page, asked, faults } = await visit(browser, built.url);
    await goTo(page, 'Buy');
    await button(page, /^Look for/).click();
    await button(page, 'Stop').click();
    await page.getByText(/^Stopped/).waitFor();
    await page.getByLabel('a year', { exact: true }).check();
    await button(page, /^Look for/).click();
    await page.locator('.options article').first().waitFor();
    const { stdout } = await velamen(['buy', '--bench', MOSS, '--year'], root);
    expect(squeezed(await page.locator('.answer').textContent())).toBe(`${squeezed(stdout.split('\n\n')[0]!)}.`);
    expect(await axeFinds(page)).toEqual([]);
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it('the season, its page and its calendar are those of the command line', async () => {
    const { page, faults } = await visit(browser, built.url);
    await goTo(page, 'Year');
    await page.getByLabel('From').fill('2026-12-01');
    await page.getByLabel('Which half of the world').selectOption('south');
    const parcel = page.getByLabel('How long a parcel takes');
    await parcel.fill('soon');
    await parcel.blur();
    await page.locator('.field', { has: parcel }).getByText('"soon"').waitFor();
    await parcel.fill('10 days');
    await parcel.blur();
    await page.locator('.answer', { hasText: '1 Dec 2026' }).waitFor();
    await page.locator('.old').waitFor({ state: 'detached' });
    const home = folder();
    const argv = ['season', '--bench', MOSS, '--from', '2026-12-01', '--hemisphere', 'south', '--lead', '10 days'];
    await velamen([...argv, '--to', 'season.ics'], home);
    expect(await writtenOut(page, 'Its dates for a calendar')).toBe(readFileSync(join(home, 'season.ics'), 'utf8'));
    await button(page, 'On paper').click();
    expect(await writtenOut(page, /^Write out/)).toBe((await velamen([...argv, '--html'], root)).stdout);
    await page.getByLabel('First buy what the year takes').check();
    await page.locator('.old').waitFor();
    await page.locator('.old').waitFor({ state: 'detached' });
    const bought = (await velamen([...argv, '--buy', '--html'], root)).stdout;
    expect(await writtenOut(page, /^Write out/)).toBe(bought);
    expect(await axeFinds(page)).toEqual([]);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('buys from a market of one’s own, never this and that in any case, as the command line does', async () => {
    const market = readFileSync(join(MOSS, 'shelf.csv'), 'utf8');
    const { page, asked, faults } = await visit(browser, built.url);
    await goTo(page, 'Buy');
    await page.getByText('What is for sale, what never, what in any case').click();
    const pick = (text: string) =>
      page
        .getByLabel('What is for sale where you are, as a CSV file')
        .setInputFiles({ name: 'market.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await pick(market.replace(',12.9,', ',much,'));
    await page.getByText('for this visit').waitFor();
    await page.getByLabel('so many weeks', { exact: true }).check();
    await page.getByLabel('How many weeks').fill('none');
    await page.getByLabel('How many weeks').blur();
    await button(page, /^Look for/).click();
    // each refusal beside what it is of, and nowhere else
    await page
      .locator('.field', { has: page.getByLabel('How many weeks') })
      .getByText('"none"')
      .waitFor();
    const beside = page.locator('.field', { hasText: 'What is for sale where you are' });
    await beside.getByText('"much"').waitFor();
    expect(await page.locator('.problems .error').count()).toBe(2);
    await pick(market);
    await page.getByLabel('How many weeks').fill('30');
    await page.getByLabel('Never to be bought').fill('sample-balanced, sample-kelp');
    await page.getByLabel('To be bought in any case').fill('sample-trace-liquid');
    await page.getByLabel('To be bought in any case').blur();
    expect(await axeFinds(page)).toEqual([]);
    await button(page, /^Look for/).click();
    await page.locator('.options article').first().waitFor();
    const wishes = [
      '--weeks',
      '30',
      '--ban',
      'sample-balanced',
      '--ban',
      'sample-kelp',
      '--need',
      'sample-trace-liquid',
    ];
    const home = folder({ 'market.csv': market });
    const { stdout } = await velamen(['buy', '--bench', MOSS, '--market', 'market.csv', ...wishes, '--full'], home);
    expect(squeezed(await page.locator('.first .answer').textContent())).toBe(`${squeezed(stdout.split('\n\n')[0]!)}.`);
    for (const price of await page.locator('.options .price b').allTextContents())
      expect(squeezed(stdout)).toContain(squeezed(price));
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it('a pot is judged by what runs out of it, and its entry is the command line’s, byte for byte', async () => {
    const { page, faults } = await visit(browser, built.url);
    await goTo(page, 'Year');
    await page.getByLabel('Pots', { exact: true }).check();
    await button(page, 'Judge the pot').click();
    await page
      .locator('.field', { has: page.getByLabel('Which pot') })
      .getByText('no name')
      .waitFor();
    await page.getByLabel('Which pot').fill('window-3');
    await page.getByLabel('What the pen shows of its feed').fill('225');
    await page.getByLabel('What the empty pot holds').fill('0.5 L');
    await button(page, 'Judge the pot').click();
    const runOff = page.getByLabel('What the pen shows of what runs out');
    await page.locator('.field', { has: runOff }).getByText('0 readings').waitFor();
    await runOff.fill('900 ppm');
    await button(page, 'Judge the pot').click();
    await page.getByText('Flush with').first().waitFor();
    expect(await axeFinds(page)).toEqual([]);
    await button(page, 'Write this entry').click();
    await page.locator('.first .answer', { hasText: 'Pots' }).waitFor();
    const told = await page.locator('.first p:not(.answer)').allTextContents();
    await page.getByLabel('Journal', { exact: true }).check();
    await button(page, 'Look at this check').click();
    await page.locator('.field', { hasText: 'What the bottle of the standard says' }).locator('.error').waitFor();
    await page.getByLabel('What the bottle of the standard says').fill('1413 µS');
    await page.getByLabel('What the pen shows of it').fill('690 ppm');
    await button(page, 'Look at this check').click();
    await button(page, 'Write this entry').click();
    await button(page, 'Every entry').click();
    await page.locator('.first tr', { hasText: 'standard' }).waitFor();
    expect(await axeFinds(page)).toEqual([]);
    await goTo(page, 'Files');
    const journal = await writtenOut(page, 'journal.csv');
    const home = folder();
    cpSync(MOSS, home, { recursive: true });
    const words = ['--pot', 'window-3', '--feed', 'moss', '--reading', '900 ppm', '--fed', '225', '--holds', '0.5 L'];
    const on = /\d{4}-\d\d-\d\d/.exec(journal)![0];
    await velamen(['journal', 'add', '--bench', home, ...words, '--on', on], home);
    const check = ['--standard', '1413 µS', '--reads', '690 ppm', '--on', on];
    await velamen(['journal', 'add', '--bench', home, ...check], home);
    expect(journal).toBe(readFileSync(join(home, 'journal.csv'), 'utf8'));
    const { stdout } = await velamen(['journal', 'pot', '--bench', home], home);
    expect(told.join()).toContain('Flush');
    for (const text of told) expect(squeezed(stdout)).toContain(squeezed(text));
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it.each(['light', 'dark'] as const)(
    '%s: what is bought goes into the journal, and can be undone',
    async (colorScheme) => {
      const { page, faults } = await visit(browser, built.url, { colorScheme });
      await goTo(page, 'Year');
      await page.getByLabel('Stock', { exact: true }).check();
      await page.getByLabel(/^Such as/).fill('1 kg potassium-nitrate');
      await page.getByLabel('What was paid for it').fill('7.5');
      await button(page, 'Look at the entry').click();
      await page.getByText('7.5 EUR').waitFor();
      await button(page, 'Write this entry').click();
      const stock = page.locator('tr', { hasText: 'potassium-nitrate' });
      await stock.waitFor();
      expect(squeezed(await stock.textContent())).toMatch(/^potassium-nitrate1600 g600 g/);
      expect(await axeFinds(page)).toEqual([]);
      await page.getByLabel('Journal', { exact: true }).check();
      await page.locator('.answer').waitFor();
      await page.getByLabel(/^Its number/).fill('1');
      await button(page, 'Look at the entry').click();
      await button(page, 'Write this entry').click();
      await page.locator('tr', { hasText: 'undoes 1' }).waitFor();
      expect(await axeFinds(page)).toEqual([]);
      expect(faults).toEqual([]);
      await page.context().close();
    },
  );
});
