import { readFileSync } from 'node:fs';
import { createRequire } from 'node:module';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { folder, velamen } from '../cli/world.js';
import { browserPath, launch, pagesOf, sizeOf, withoutBrowser } from './browser.js';
import { SIX_ITEMS } from './six-items.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const example = (name: string): string => join(root, 'examples', name);

/** Every feed of the examples, and one with six items and names that are markup. */
const FEEDS: [name: string, argv: (home: string) => string[]][] = [
  ['moss', () => ['--bench', example('moss-without-ammonium')]],
  ['three feeds', () => ['--bench', example('what-the-shelf-reaches')]],
  ['two waters', () => ['--bench', example('what-to-buy')]],
  ['six items', (home) => ['--bench', home]],
];

/** Two goldens have it too. */
const PEN_KITCHEN = [
  '--bench',
  join(root, 'test', 'golden', 'kitchens', 'pen'),
  '--shelf',
  join(root, 'test', 'golden', 'kitchens', 'salts.csv'),
];

/** Runs in the page: words of up to 24 letters that stand on two lines, px beyond the side, widths of the bars in px. */
const WHAT_IS_WRONG = `(() => {
  const broken = [];
  const texts = document.createTreeWalker(document.body, NodeFilter.SHOW_TEXT);
  while (texts.nextNode()) {
    const node = texts.currentNode;
    // what only a screen reader is told has no lines
    if (node.parentElement.closest('.hidden, thead')) continue;
    for (const word of node.textContent.matchAll(/[\\p{L}\\p{N}.,%°/]{2,24}/gu)) {
      const range = document.createRange();
      range.setStart(node, word.index);
      range.setEnd(node, word.index + word[0].length);
      const boxes = [...range.getClientRects()].filter((box) => box.width > 0);
      if (new Set(boxes.map((box) => Math.round(box.top))).size > 1) broken.push(word[0]);
    }
  }
  const bars = [...document.querySelectorAll('svg.bar')].map((bar) => bar.getBoundingClientRect().width);
  return { broken, over: document.documentElement.scrollWidth - innerWidth, bars };
})()`;

interface Wrong {
  broken: string[];
  over: number;
  bars: number[];
}

describe.skipIf(withoutBrowser())('the sheet in a browser', () => {
  let browser: Browser;
  let axe: string;
  beforeAll(async () => {
    browser = await launch();
    axe = readFileSync(createRequire(import.meta.url).resolve('axe-core/axe.min.js'), 'utf8');
  });
  afterAll(() => browser?.close());

  const written = new Map<string, string>();

  /** A sheet as the command line writes it; written once for all that look at it. */
  async function htmlOf(argv: (home: string) => string[], more: string[]): Promise<string> {
    const home = folder(SIX_ITEMS);
    const key = [...argv('six items'), ...more].join(' ');
    if (!written.has(key)) {
      const ran = await velamen(['sheet', ...argv(home), '--to', 'sheet.html', ...more], home);
      expect(ran.exit, ran.stderr).not.toBe(2);
      written.set(key, readFileSync(join(home, 'sheet.html'), 'utf8'));
    }
    return written.get(key)!;
  }

  async function opened(argv: (home: string) => string[], more: string[] = []): Promise<{ page: Page; feeds: number }> {
    const html = await htmlOf(argv, more);
    const page = await browser.newPage();
    await page.setContent(html, { waitUntil: 'load' });
    return { page, feeds: html.match(/<article/g)!.length };
  }

  it.each(FEEDS)(
    '%s: each feed prints on one page of A4, Letter or A6, whichever the printer holds',
    async (_, argv) => {
      const { page, feeds } = await opened(argv);
      for (const format of ['A4', 'Letter', 'A6']) {
        expect(pagesOf(await page.pdf({ format })), format).toBe(feeds);
      }
      await page.close();
    },
  );

  it.each([
    ['a4', 210, 297],
    ['letter', 216, 279],
    ['a6', 105, 148],
  ])('--paper %s asks the printer for it', async (paper, width, height) => {
    const { page, feeds } = await opened(FEEDS[3]![1], ['--paper', paper]);
    const pdf = await page.pdf({ preferCSSPageSize: true });
    expect(pagesOf(pdf)).toBe(feeds);
    expect(sizeOf(pdf)).toEqual([width, height]);
    await page.close();
  });

  it.each(FEEDS)('%s: nothing for a checker of accessibility to find', async (_, argv) => {
    const { page } = await opened(argv);
    // the checker is run by the test itself, past the page's own policy of running nothing
    const violations = await page.evaluate(
      `${axe}; axe.run().then((r) => r.violations.map((v) => v.id + ': ' + v.help))`,
    );
    expect(violations).toEqual([]);
    await page.close();
  });

  it.each([
    ['by measure', FEEDS[1]!],
    ['bottles and a pen', ['pen', () => PEN_KITCHEN] as (typeof FEEDS)[number]],
  ])(
    '%s: at 390, 820 and 1280 px and on paper no word is broken, nothing runs over the side, bars can be read',
    async (_, [, argv]) => {
      const { page } = await opened(argv);
      for (const width of [390, 820, 1280, 718]) {
        if (width === 718) await page.emulateMedia({ media: 'print' });
        await page.setViewportSize({ width, height: 900 });
        const { broken, over, bars } = (await page.evaluate(WHAT_IS_WRONG)) as Wrong;
        expect(broken, `${width}`).toEqual([]);
        expect(over, `${width}`).toBeLessThanOrEqual(0);
        expect(Math.min(...bars), `${width}`).toBeGreaterThan(100);
      }
      await page.close();
    },
  );

  it('a long name of a feed wraps, and the sheet keeps to its page', async () => {
    const name = `moss_${'o'.repeat(110)}`;
    const bench = SIX_ITEMS['bench.yaml'].replace(/^( {2})[\w-]+:/m, `$1"${name}":`);
    expect(bench).toContain(name);
    const home = folder({ ...SIX_ITEMS, 'bench.yaml': bench });
    const ran = await velamen(['sheet', '--feed', name, '--to', 'sheet.html'], home);
    expect(ran.exit, ran.stderr).not.toBe(2);
    const page = await browser.newPage();
    await page.setContent(readFileSync(join(home, 'sheet.html'), 'utf8'), { waitUntil: 'load' });
    for (const format of ['A4', 'Letter', 'A6']) expect(pagesOf(await page.pdf({ format })), format).toBe(1);
    const [wide, room] = (await page.evaluate('[document.documentElement.scrollWidth, innerWidth]')) as [
      number,
      number,
    ];
    expect(wide).toBeLessThanOrEqual(room);
    await page.close();
  });

  it('the card keeps the figures for a reading that is off, and its frame', async () => {
    const { page } = await opened(FEEDS[3]![1], ['--paper', 'a6']);
    expect(await page.locator('.run').isVisible()).toBe(false);
    await page.emulateMedia({ media: 'print' });
    // A6 less its margins, in CSS pixels
    await page.setViewportSize({ width: 359, height: 521 });
    expect(await page.locator('.run').textContent()).toMatch(/^If the reading at the end is off .*as it should be/s);
    expect(await page.locator('.ladder').isVisible()).toBe(false);
    const box = await page.locator('.cautions').boundingBox();
    // the printer cuts off what touches the edge
    expect(box!.x + box!.width).toBeLessThan(358);
    await page.close();
  });

  it('paints black on white, runs no script and asks for nothing', async () => {
    const { page: first } = await opened(FEEDS[3]![1]);
    const asked: string[] = [];
    const page = await browser.newPage();
    page.on('request', (request) => asked.push(request.url()));
    await page.setContent(await first.content(), { waitUntil: 'networkidle' });
    const picture = await page.screenshot({ fullPage: true });
    expect(picture.length).toBeGreaterThan(20_000);
    expect(await page.locator('script, img, link').count()).toBe(0);
    expect(await page.locator('b b, .what b').count()).toBe(0);
    expect(await page.locator('.what').allTextContents()).toContain('Iron <b>chelate</b> & "traces"');
    expect(asked.filter((url) => !url.startsWith('about:'))).toEqual([]);
    await Promise.all([first.close(), page.close()]);
  });

  it('a PDF is the same, printed through the browser of the machine', async () => {
    const home = folder(SIX_ITEMS);
    const env = { NO_COLOR: '1', CHROME_PATH: browserPath! };
    const ran = await velamen(['sheet', '--bench', home, '--to', 'sheet.pdf', '--paper', 'a6'], home, { env });
    expect(ran.exit, ran.stderr).toBe(0);
    const pdf = readFileSync(join(home, 'sheet.pdf'));
    expect(pagesOf(pdf)).toBe(1);
    expect(sizeOf(pdf)).toEqual([105, 148]);
  });
});
