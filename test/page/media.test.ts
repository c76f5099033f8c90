import type { Browser, Locator, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { launch, pagesOf, withoutBrowser } from './browser.js';
import { axeFinds, type Built, builtPage, visit } from './built.js';
import { goTo, PLACES } from './places.js';

const MARKS = `(it) => [getComputedStyle(it).fontWeight, getComputedStyle(it).outlineStyle, getComputedStyle(it).borderTopWidth].join()`;

describe.skipIf(withoutBrowser())('the page as devices show it', () => {
  let browser: Browser;
  let built: Built;
  let page: Page;
  beforeAll(async () => {
    built = builtPage();
    browser = await launch();
    ({ page } = await visit(browser, built.url, { viewport: { width: 390, height: 844 } }));
  });
  afterAll(async () => {
    await browser?.close();
    built?.remove();
  });

  it('keeps in forced colours what says where one is, what is chosen and where focus lies', async () => {
    await page.emulateMedia({ forcedColors: 'active' });
    for (const { word } of PLACES) {
      await goTo(page, word);
      expect(await axeFinds(page), word).toEqual([]);
      const at = page.locator('nav [aria-current=page]');
      const plain = page.locator('nav button:not([aria-current])').first();
      // backgrounds are the device’s then: a mark that is drawn otherwise has to stay
      const marks = (of: Locator) => of.evaluate((it, look) => new Function(`return (${look})`)()(it) as string, MARKS);
      expect(await marks(at)).not.toBe(await marks(plain));
    }
    await page.keyboard.press('Tab');
    expect(await page.evaluate('getComputedStyle(document.activeElement).outlineStyle')).toBe('solid');
    await page.emulateMedia({ forcedColors: 'none' });
  });

  it('stands still where motion is not wanted', async () => {
    await page.emulateMedia({ reducedMotion: 'reduce' });
    for (const { word } of PLACES) {
      await goTo(page, word);
      expect(
        await page.evaluate(
          `document.getAnimations().filter((one) => one.playState === 'running' && one.effect.getComputedTiming().duration > 1).length`,
        ),
        word,
      ).toBe(0);
    }
    await page.emulateMedia({ reducedMotion: null });
  });

  it('prints the sheet and the label of its frame on one page each, of A4 and of Letter', async () => {
    await goTo(page, 'Sink');
    for (const name of ['The sheet', 'The label for the jug']) {
      await page.getByRole('button', { name, exact: true }).click();
      const frame = page.frameLocator('.paper iframe');
      await frame.locator('article, .label').first().waitFor();
      const html = (await page.locator('.paper iframe').getAttribute('srcdoc'))!;
      const paper = await browser.newPage();
      await paper.setContent(html.replaceAll('data-set-later=', 'style='));
      for (const format of ['A4', 'Letter']) expect(pagesOf(await paper.pdf({ format })), name).toBe(1);
      await paper.close();
    }
  });

  it('looks at files that are dropped before anything is replaced', async () => {
    const dropped = await page.evaluateHandle(
      `(() => { const all = new DataTransfer(); all.items.add(new File(['id,name,form,formula\\nkn,Nitre,powder,KNO3\\n'], 'jars.csv')); return all; })()`,
    );
    await page.dispatchEvent('main', 'drop', { dataTransfer: dropped });
    await page.getByText('shelf.csv: 3 lines, differs from what is here').waitFor();
    expect(await page.locator('main[data-place=files]').count()).toBe(1);
    await page.getByRole('button', { name: 'Leave it' }).click();
  });

  it('keeps what is being typed while an answer to something else comes in', async () => {
    await goTo(page, 'Plants');
    await page.getByLabel('Mixed at a time').fill('1 US gal');
    await page.getByLabel('Pen', { exact: true }).selectOption('{ scale: 640 }');
    await page.getByRole('button', { name: 'not in a file yet' }).waitFor();
    expect(await page.getByLabel('Mixed at a time').inputValue()).toBe('1 US gal');
  });
});
