import { readFileSync } from 'node:fs';
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
    await page.locator('.answer', { hasText: '1 Dec 2026' }).waitFor();
    await page.locator('.old').waitFor({ state: 'detached' });
    const home = folder();
    const argv = ['season', '--bench', MOSS, '--from', '2026-12-01', '--hemisphere', 'south'];
    await velamen([...argv, '--to', 'season.ics'], home);
    expect(await writtenOut(page, 'Its dates for a calendar')).toBe(readFileSync(join(home, 'season.ics'), 'utf8'));
    await button(page, 'On paper').click();
    expect(await writtenOut(page, /^Write out/)).toBe((await velamen([...argv, '--html'], root)).stdout);
    expect(await axeFinds(page)).toEqual([]);
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
      await button(page, 'Look at the entry').click();
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
