import type { Browser } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, withoutBrowser } from './browser.js';
import { axeFinds, type Built, builtPage, visit } from './built.js';
import { goTo, PLACES } from './places.js';

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
});
