import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { velamen } from '../cli/world.js';
import { launch, withoutBrowser } from './browser.js';
import { axeFinds, type Built, builtPage, visit } from './built.js';
import { goTo } from './places.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const example = (name: string): string => join(root, 'examples', name);
const MOSS = example('moss-without-ammonium');
const TREE = fileURLToPath(new URL('sink.tree', import.meta.url));
const update = process.env.UPDATE_GOLDEN === '1' && !process.env.CI;

/** What the sheet of the command line says of each step, read by the browser: amount, product, reading, its range. */
async function sheetOf(browser: Browser, bench: string, feed: string): Promise<string[][]> {
  const { stdout } = await velamen(['sheet', '--bench', bench, '--feed', feed, '--html'], root);
  const page = await browser.newPage();
  await page.setContent(stdout);
  const rows = (await page.evaluate(
    `[...document.querySelectorAll('.steps tbody tr')].map((row) => ['.amount', '.what', '.reading b', '.reading small'].map((of) => row.querySelector(of)?.textContent ?? ''))`,
  )) as string[][];
  await page.close();
  return rows;
}

const button = (page: Page, name: string | RegExp) => page.getByRole('button', { name, exact: true });
const squeezed = (text: string | null): string => (text ?? '').replace(/\s+/g, ' ').trim();

async function begin(page: Page): Promise<void> {
  await goTo(page, 'Sink');
  await page.getByRole('button', { name: /^Start mixing/ }).click();
  await page.locator('.amount').waitFor();
}

/** Steps through to the end, with what each shows. */
async function stepThrough(page: Page): Promise<string[][]> {
  const rows: string[][] = [];
  while ((await page.locator('.amount').count()) > 0) {
    rows.push(
      (await page.evaluate(
        `['.amount', '.what', '.expect b', '.range'].map((of) => document.querySelector('.sink ' + of)?.textContent ?? '')`,
      )) as string[],
    );
    await button(page, 'Done').click();
  }
  return rows;
}

async function judged(page: Page, typed: string): Promise<string> {
  await page.locator('.read input').fill(typed);
  await button(page, 'Judge it').click();
  await page.locator(`.judged[data-of$="${typed}"]`).waitFor();
  return squeezed(await page.locator('.judged .answer .says').textContent());
}

describe.skipIf(withoutBrowser())('the sink', () => {
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

  it('shows the steps and readings of the printed sheet, judges as meter does, and asks the network nothing', async () => {
    const { page, asked, faults } = await visit(browser, built.url);
    await begin(page);
    expect(await stepThrough(page)).toEqual(await sheetOf(browser, MOSS, 'moss'));
    const compare = async (...wishes: string[]): Promise<void> => {
      const { stdout } = await velamen(['meter', '--bench', MOSS, ...wishes], root);
      const [first, ...rest] = stdout.split('\n\n').map(squeezed);
      expect(squeezed(await page.locator('.judged .says').textContent())).toBe(first);
      const todo = (await page.locator('.judged .todo li').allTextContents()).map(squeezed);
      // a terminal is told the option as well
      const told = squeezed(rest[0]!).replace(/ \(--[\w-]+\)/g, '');
      if (todo.length > 0) expect(told).toBe(todo.map((line) => `- ${line}`).join(' '));
    };
    for (const typed of ['122', '90', '2 mS/cm']) {
      await judged(page, typed);
      await compare('--reading', typed);
    }
    // read out as well as shown
    await page
      .getByRole('status')
      .filter({ hasText: /^Don’t feed|^Good|^A little/ })
      .waitFor();
    await judged(page, '97');
    await page.getByText('What happened?').click();
    await button(page, 'Say so').click();
    await page.locator('.judged[data-of^="sample-calcium forgotten"]').waitFor();
    await compare('--reading', '97', '--did', 'sample-calcium forgotten');
    await button(page, 'Not so').click();
    await page.getByLabel('Or in your own words').fill('potassium nitrate twice');
    await button(page, 'Say this').click();
    await page.locator('.judged[data-of^="potassium"]').waitFor();
    await compare('--reading', '97', '--did', 'potassium nitrate twice');
    await page.locator('.read input').fill('wet');
    await button(page, 'Judge it').click();
    expect(squeezed(await page.locator('.problems li').first().textContent())).toMatch(
      /^found "wet"; expected a reading/,
    );
    await page.getByRole('status').filter({ hasText: 'Not understood. Write for example' }).waitFor();
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it.each([
    ['spoons-alone', 'moth orchids'],
    ['what-the-shelf-reaches', 'cattleyas'],
    ['what-to-buy', 'bark'],
  ])('%s: the same steps as on its sheet', async (name, feed) => {
    const { page } = await visit(browser, built.url);
    await goTo(page, 'Files');
    const files = ['bench.yaml', 'shelf.csv'].map((file) => join(example(name), file));
    await page.locator('input[type=file]').setInputFiles(files);
    await button(page, 'Take these').click();
    await page.locator('nav').getByRole('button', { name: 'Sink', exact: true }).click();
    await page.locator('.answer, select').first().waitFor();
    if ((await page.locator('select').count()) > 0) await page.locator('select').selectOption(feed);
    await page.locator('.answer', { hasText: `${feed}: mixing sheet` }).waitFor();
    await page.getByRole('button', { name: /^Start mixing/ }).click();
    await page.locator('.amount').waitFor();
    expect(await stepThrough(page)).toEqual(await sheetOf(browser, example(name), feed));
    await page.context().close();
  });

  it('loses nothing when it is reloaded, or dies, in the middle of a can', async () => {
    const { page } = await visit(browser, built.url);
    await begin(page);
    await button(page, 'Done').click();
    expect(await judged(page, '40')).toMatch(/^Too low\. Stop: /);
    await page.reload();
    await page.locator('.judged').waitFor();
    expect(await page.locator('h2').textContent()).toBe('Step 2 of 6');
    expect(await page.locator('.read input').inputValue()).toBe('40');
    await button(page, 'Done').click();
    await page.locator('h2', { hasText: 'Step 3 of 6' }).waitFor();
    // what it learnt stands until it is mended
    await page.locator('.judged.bad').waitFor();
    // the disk of a busy machine may be slower than the browser's death
    const written = `new Promise((done) => {
      const open = indexedDB.open('velamen');
      open.onsuccess = () => {
        const get = open.result.transaction('kept').objectStore('kept').get('remembered');
        get.onsuccess = () => { open.result.close(); done(get.result.batch.at); };
      };
    })`;
    await expect.poll(() => page.evaluate(written)).toBe(2);
    const cdp = await page.context().newCDPSession(page);
    await Promise.race([cdp.send('Page.crash').catch(() => undefined), page.waitForEvent('crash')]);
    const again = await page.context().newPage();
    await again.goto(built.url);
    await again.locator('h2', { hasText: 'Step 3 of 6' }).waitFor();
    await button(again, 'Back').click();
    expect(await again.locator('.read input').inputValue()).toBe('40');
    await page.context().close();
  });

  it('is worked by keys alone, and writes the can into the journal as the command line does', async () => {
    const { page } = await visit(browser, built.url);
    const press = async (name: RegExp): Promise<void> => {
      for (let i = 0; i < 80; i += 1) {
        await page.keyboard.press('Tab');
        const at = (await page.evaluate(
          `document.activeElement.labels?.[0]?.textContent ?? document.activeElement.textContent`,
        )) as string;
        if (name.test(squeezed(at))) return page.keyboard.press('Enter');
      }
      throw new Error(`no key reaches ${name}`);
    };
    await press(/^Sink$/);
    await press(/^Start mixing/);
    for (let i = 1; i <= 6; i += 1) {
      await page.locator('h2', { hasText: `Step ${i} of 6` }).waitFor();
      await press(/^Done$/);
    }
    await page.locator('h2', { hasText: 'The can is done' }).waitFor();
    await press(/^What the pen shows/);
    await page.keyboard.type('122');
    await page.keyboard.press('Enter');
    await page.locator('.judged.good').waitFor();
    await press(/^Write it into the journal$/);
    await button(page, 'Write this entry').waitFor();
    await press(/^Write this entry$/);
    await page.getByText('stands in the journal').waitFor();
    await goTo(page, 'Files');
    const [written] = await Promise.all([page.waitForEvent('download'), button(page, 'journal.csv').click()]);
    const lines = readFileSync(await written.path(), 'utf8').split('\n');
    expect(lines[1]).toMatch(/^1,\d{4}-\d\d-\d\d,batch,moss,4,/);
    expect(lines).toHaveLength(3);
    await page.context().close();
  });

  it('prints the sheet and the label of the command line', async () => {
    const { page, faults } = await visit(browser, built.url);
    await goTo(page, 'Sink');
    for (const [name, option] of [
      ['The sheet', '--html'],
      ['The label for the jug', '--jug-label'],
    ] as const) {
      await button(page, name).click();
      const [written] = await Promise.all([page.waitForEvent('download'), button(page, /^Write out/).click()]);
      const argv = ['sheet', '--bench', MOSS, ...new Set([option, '--html'])];
      expect(readFileSync(await written.path(), 'utf8')).toBe((await velamen(argv, root)).stdout);
      await page.locator('.paper iframe').waitFor();
      const rules = `document.querySelector('.paper iframe').contentDocument.styleSheets[0].cssRules.length`;
      expect(await page.evaluate(rules)).toBeGreaterThan(2);
      // what fits the sheet to one page stands in its markup, which the policy refuses and the page then sets
      const fit = `document.querySelector('.paper iframe').contentDocument.querySelector('article').style.getPropertyValue('--page')`;
      expect(Number(await page.evaluate(fit)) > 0).toBe(name === 'The sheet');
    }
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it.each(['light', 'dark'] as const)(
    '%s: nothing for a checker of accessibility in its steps',
    async (colorScheme) => {
      const { page } = await visit(browser, built.url, { colorScheme, viewport: { width: 390, height: 800 } });
      await begin(page);
      const tree: string[] = [];
      const look = async (): Promise<void> => {
        expect(await axeFinds(page)).toEqual([]);
        tree.push((await page.locator('main').ariaSnapshot()).replace('; the screen stays on', ''));
        expect(await smallTargets(page)).toEqual([]);
      };
      await look();
      await button(page, 'Done').click();
      await judged(page, '40');
      await look();
      await judged(page, '82');
      for (let i = 2; i <= 6; i += 1) await button(page, 'Done').click();
      await judged(page, '122');
      await look();
      const told = `${tree.join('\n\n')}\n`;
      if (update) writeFileSync(TREE, told);
      expect(told).toBe(readFileSync(TREE, 'utf8'));
      await page.context().close();
    },
  );

  it('is 320 px wide, at twice the text size, without a sideways scroll in its steps', async () => {
    const { page } = await visit(browser, built.url, { viewport: { width: 320, height: 640 } });
    await page.evaluate(`document.documentElement.style.fontSize = '200%'`);
    await begin(page);
    for (let i = 1; i <= 7; i += 1) {
      expect(await page.evaluate('document.documentElement.scrollWidth <= innerWidth'), `step ${i}`).toBe(true);
      if (i < 7) await button(page, 'Done').click();
    }
    await page.context().close();
  });
});

/** What a wet thumb would miss: targets under 48 px. */
const smallTargets = (page: Page): Promise<string[]> =>
  page.evaluate(
    `[...document.querySelectorAll('main button, main input, main summary, main select, nav button')].filter((it) => it.checkVisibility()).flatMap((it) => { const { width, height } = it.getBoundingClientRect(); return Math.min(width, height) < 47.9 ? [it.textContent + ' ' + width + ' x ' + height] : []; })`,
  );
