import { once } from 'node:events';
import { createServer } from 'node:http';
import type { AddressInfo } from 'node:net';
import { readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { filesOf } from '../../src/page/work/files.js';
import { figure } from '../../src/report/figures.js';
import { launch, withoutBrowser } from './browser.js';
import { axeFinds, type Built, builtPage, visit } from './built.js';
import { goTo, PLACES } from './places.js';

const PICTURES = fileURLToPath(new URL('pictures', import.meta.url));
const example = (name: string): string => readFileSync(join('examples/moss-without-ammonium', name), 'utf8');
const update = process.env.UPDATE_GOLDEN === '1' && !process.env.CI;

describe.skipIf(withoutBrowser())('the page', () => {
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

  it('is one file of at most 7 MB that may ask for nothing and run nothing but its own script', () => {
    expect(built.html.length).toBeLessThan(7_000_000);
    const policy = /http-equiv="Content-Security-Policy" content="([^"]+)"/.exec(built.html)![1]!;
    expect(policy).toMatch(/^default-src 'none'; script-src 'sha256-[^']+' 'wasm-unsafe-eval'; style-src 'sha256-/);
    expect(policy).toContain("connect-src 'none'");
    expect(policy).not.toMatch(/unsafe-inline|unsafe-eval'(?<!wasm-unsafe-eval')|\*|https?:/);
  });

  it.each(['light', 'dark'] as const)(
    '%s: nothing for a checker of accessibility to find in any place',
    async (colorScheme) => {
      const { page, asked, faults } = await visit(browser, built.url, { colorScheme });
      for (const { word } of PLACES) {
        await goTo(page, word);
        expect(await axeFinds(page), word).toEqual([]);
      }
      expect([...asked, ...faults]).toEqual([]);
      await page.context().close();
    },
  );

  it('is 320 px wide, at twice the text size, without a sideways scroll in any place', async () => {
    const { page } = await visit(browser, built.url, { viewport: { width: 320, height: 640 } });
    for (const size of ['100%', '200%']) {
      await page.evaluate(`document.documentElement.style.fontSize = '${size}'`);
      for (const { word } of PLACES) {
        await goTo(page, word);
        const [wide, room] = (await page.evaluate('[document.documentElement.scrollWidth, innerWidth]')) as [
          number,
          number,
        ];
        expect(wide, `${word} at ${size}`).toBeLessThanOrEqual(room);
      }
    }
    await page.context().close();
  });

  it('does the same from a server: nothing is asked for but the page itself', async () => {
    const server = createServer((_, response) => response.end(built.html)).listen(0, '127.0.0.1');
    await once(server, 'listening');
    const url = `http://127.0.0.1:${(server.address() as AddressInfo).port}/`;
    const { page, asked, faults } = await visit(browser, url);
    await page.getByLabel('Closest').check();
    await page.locator('[aria-busy=false] .answer', { hasText: 'moss' }).waitFor();
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
    server.close();
  });

  it('says so where the browser keeps nothing, and goes on', async () => {
    const context = await browser.newContext();
    await context.addInitScript('indexedDB.open = () => { throw new DOMException("no room", "QuotaExceededError"); }');
    const page = await context.newPage();
    await page.goto(built.url);
    await page.getByRole('button', { name: 'NOT kept on this device' }).waitFor();
    expect(await page.locator('.answer').textContent()).toContain('moss');
    await context.close();
  });

  it('is worked with keys alone, in forced colours and without motion', async () => {
    const { page } = await visit(browser, built.url, { forcedColors: 'active', reducedMotion: 'reduce' });
    const focused = () => page.evaluate('document.activeElement.textContent || document.activeElement.id');
    const words: unknown[] = [];
    for (let i = 0; i < PLACES.length + 1; i += 1) {
      await page.keyboard.press('Tab');
      words.push(await focused());
    }
    expect(words.slice(1)).toEqual(PLACES.map(({ word }) => word));
    await page.keyboard.press('Shift+Tab');
    await page.keyboard.press('Enter');
    await page.locator(`main[data-place=${PLACES.at(-2)!.word.toLowerCase()}]`).waitFor();
    expect(await page.evaluate('document.activeElement.tagName')).toBe('MAIN');
    expect(await axeFinds(page)).toEqual([]);
    await page.context().close();
  });

  it('works the feed out anew as a slider moves, and back', async () => {
    const { page, faults } = await visit(browser, built.url);
    const before = await page.locator('.doses').textContent();
    const slider = page.getByRole('slider', { name: 'Strength' });
    await slider.focus();
    // the first move also wakes the worker that follows
    for (let i = 0; i < 3; i += 1) await page.keyboard.press('ArrowRight');
    await page.locator('output', { hasText: '95 %' }).waitFor();
    await page.locator('[aria-busy=false] .answer').waitFor();
    // every state that is seen on the way: whether the doses are old, what the figures are, how far the doses are
    await page.evaluate(`globalThis.seen = []; new MutationObserver(() => {
      const all = ['.first h3', '.bars', '.follows p'].map((it) => document.querySelector(it));
      seen.push([all[0].textContent, all[1].closest('article').querySelector('h3').textContent, all[2].textContent, all[1].querySelector('.mix').textContent, document.querySelector('[role=status]').textContent]);
    }).observe(document.querySelector('#page'), { subtree: true, childList: true, characterData: true })`);
    await page.keyboard.press('ArrowRight');
    await page.locator('output', { hasText: '100 %' }).waitFor();
    await page.locator('[aria-busy=false] .answer').waitFor();
    const after = await page.locator('.doses').textContent();
    expect(after).not.toBe(before);
    const seen = (await page.evaluate('seen')) as string[][];
    const first = seen.findIndex(([, figures]) => figures === 'The nearest mix, before rounding');
    expect(first).toBeGreaterThanOrEqual(0);
    for (const [doses, figures] of seen.slice(first, -8))
      if (figures === 'The nearest mix, before rounding') expect(doses).toMatch(/^Before the change, for/);
    expect(seen.some(([, , follows]) => follows?.startsWith('Working out the doses'))).toBe(true);
    expect(seen.some((one) => one[4] === 'Working out the doses.')).toBe(true);
    expect(seen.at(-1)!.slice(0, 2)).toEqual(['What goes in, for 4 L', 'What the can holds']);
    // at rest it is the very feed of the command line
    const { results } = await blendFeeds(
      filesOf({ 'bench.yaml': example('bench.yaml'), 'shelf.csv': example('shelf.csv') }),
      { feed: 'moss', strength: '100 %' },
    );
    const [made] = results;
    if (!made || !('given' in made) || made.status !== 'made') throw new Error('no feed');
    const doses = made.given.plan.items.map(({ product, chosen }) => `${chosen.words} ${product.name}`);
    expect(await page.locator('.doses summary').allTextContents()).toEqual(doses);
    const figures = made.elements.filter((e) => e.min !== null || e.aim !== null || e.max !== null || e.high > 0);
    expect(await page.locator('.bars .mix').allTextContents()).toEqual(
      figures.map(({ mgPerLitre }) => figure(mgPerLitre)),
    );
    expect(await page.locator('[role=status]').textContent()).toContain('moss: ');
    await page.getByRole('button', { name: 'Write 100 % into the bench' }).click();
    await page.locator('.undo', { hasText: 'moss is fed at 100 %' }).waitFor();
    await page.locator('[aria-busy=false] .answer').waitFor();
    expect(await page.locator('.doses').textContent()).toBe(after);
    await page.getByRole('button', { name: 'Take back' }).click();
    await page.locator('[aria-busy=false] .answer').waitFor();
    expect(await page.locator('.doses').textContent()).toBe(before);
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('looks as README shows it: pictures of the feed and of the sink', async () => {
    const { page } = await visit(browser, built.url, { viewport: { width: 390, height: 780 } });
    await page.getByRole('button', { name: 'Look around first' }).click();
    const feed = await page.screenshot();
    await goTo(page, 'Sink');
    await page.getByRole('button', { name: /^Start mixing/ }).click();
    await page.getByRole('button', { name: 'Done', exact: true }).click();
    await page.locator('.amount').waitFor();
    const sink = await page.screenshot();
    for (const [name, picture] of Object.entries({ feed, sink })) {
      if (update) writeFileSync(join(PICTURES, `${name}.png`), picture);
      // fonts differ from machine to machine: that there is one of that size is all that can be held
      const kept = readFileSync(join(PICTURES, `${name}.png`));
      expect([kept.readUInt32BE(16), kept.readUInt32BE(20)], name).toEqual([390, 780]);
      expect(kept.length).toBeGreaterThan(10_000);
    }
    await page.context().close();
  });
});
