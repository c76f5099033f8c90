import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { unzipSync } from 'fflate';
import type { Browser, Page } from 'playwright-core';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { velamen } from '../cli/in-process.js';
import { launch, withoutBrowser } from './browser.js';
import { type Built, builtPage, visit } from './built.js';
import { goTo } from './places.js';

const root = fileURLToPath(new URL('../..', import.meta.url));
const EXAMPLES = readdirSync(join(root, 'examples'));
const fileOf = (example: string, name: string) => readFileSync(join(root, 'examples', example, name));

/** Files brought in and taken, as a grower does it. */
async function bring(page: Page, files: { name: string; buffer: Buffer }[]): Promise<void> {
  await goTo(page, 'Files');
  await page.locator('input[type=file]').setInputFiles(files.map((file) => ({ ...file, mimeType: 'text/plain' })));
  await page.getByRole('button', { name: 'Take these' }).click();
}

/** What a click hands to the browser to save. */
async function saved(page: Page, button: string): Promise<Buffer> {
  const [download] = await Promise.all([
    page.waitForEvent('download'),
    page.getByRole('button', { name: button, exact: true }).click(),
  ]);
  return readFileSync((await download.path())!);
}

const ready = (page: Page, title: string) => page.locator('.answer', { hasText: title }).waitFor();

describe.skipIf(withoutBrowser())('the page in use', () => {
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

  it('shows a working feed on the first visit, without asking the worker', async () => {
    const { page } = await visit(browser, built.url);
    await ready(page, 'moss: near its aims');
    expect(await page.evaluate('performance.getEntriesByType("resource").length')).toBe(0);
    await page.context().close();
  });

  it.each(EXAMPLES)('%s: every figure is the command line’s, to the last printed digit', async (example) => {
    const { page, asked, faults } = await visit(browser, built.url);
    await bring(
      page,
      ['bench.yaml', 'shelf.csv'].map((name) => ({ name, buffer: fileOf(example, name) })),
    );
    // the last feed of each: of the same shelves and plants others are asked by the tests of the desk
    const names = [
      ...fileOf(example, 'bench.yaml')
        .toString()
        .matchAll(/^ {2}([\w -]+):$/gm),
    ].map(([, name]) => name!);
    const name = names.at(-1)!;
    page.setDefaultTimeout(120_000);
    if (names.length > 1) {
      await goTo(page, 'Plants');
      await page.getByRole('button', { name: 'See its feed' }).last().click();
    } else await goTo(page, 'Feed');
    await page.locator('[aria-busy=false] .answer', { hasText: `${name}: ` }).waitFor();
    const argv = ['blend', '--bench', join(root, 'examples', example), '--feed', name, '--full', '--html'];
    const { stdout } = await velamen(argv, root);
    const [, title, rest] = /<h1>(.*)<\/h1>([\s\S]*)<\/article>/.exec(stdout)!;
    expect(await page.locator('.answer').textContent()).toBe(title);
    const report = page.locator('details', { hasText: 'The whole report' }).last();
    await report.locator('summary').first().click();
    expect(figuresIn((await report.allInnerTexts()).join('\n'))).toEqual(figuresIn(rest!.replace(/<[^>]*>/g, '\n')));
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it('gives a bench back byte for byte, as files and as one zip; a change is one change; it can be taken back', async () => {
    const bench = Buffer.from(
      '\uFEFF# ours\r\nname: "Öl & Moos"\r\nwater: rain\r\nfeeds:\r\n  moss: { plants: pleurothallid, medium: sphagnum }  # old\r\n',
    );
    const shelf = fileOf('moss-without-ammonium', 'shelf.csv');
    const { page } = await visit(browser, built.url);
    await bring(page, [
      { name: 'bench.yaml', buffer: bench },
      { name: 'shelf.csv', buffer: shelf },
    ]);
    const zip = unzipSync(await saved(page, 'Write out all, as one zip'));
    expect(Object.keys(zip)).toEqual(['bench.yaml', 'shelf.csv']);
    expect(Buffer.from(zip['bench.yaml']!).equals(bench)).toBe(true);
    expect(Buffer.from(zip['shelf.csv']!).equals(shelf)).toBe(true);
    expect((await saved(page, 'bench.yaml')).equals(bench)).toBe(true);
    await page.getByText('Last written out').waitFor();
    await goTo(page, 'Plants');
    await page.getByLabel('Strength').fill('60 %');
    await page.getByLabel('Strength').blur();
    await page.getByRole('button', { name: 'not in your files yet' }).click();
    const changed = await saved(page, 'bench.yaml');
    expect(changed.toString()).toBe(bench.toString().replace('sphagnum }', 'sphagnum, strength: 60 % }'));
    await page.context().close();
  });

  it('begins a bench of one’s own without an error, and takes its first label', async () => {
    const { page, faults } = await visit(browser, built.url);
    await page.getByRole('button', { name: 'Begin a bench of my own' }).click();
    await page.getByText('Put your first label here').waitFor();
    await page.getByRole('button', { name: 'Kept here, not in a file yet' }).waitFor();
    for (const place of ['Feed', 'Sink', 'Buy', 'Year']) {
      await page.locator('nav').getByRole('button', { name: place }).click();
      await page.getByRole('button', { name: 'Put your first label on the shelf' }).waitFor();
      expect(await page.locator('.problems .error').count()).toBe(0);
    }
    await page.getByRole('button', { name: 'Put your first label on the shelf' }).click();
    const label = 'Plain Moss Feed\nTotal Nitrogen (N) 10 %\nSoluble Potash (K2O) 1 2 %';
    await page.getByLabel('The label, as it is printed').fill(label);
    await page.locator('.problems', { hasText: 'the label Plain Moss Feed' }).getByText('"1 2 %"').waitFor();
    await page.getByLabel('The label, as it is printed').fill(label.replace('1 2', '12'));
    await page.getByText('Soluble Potash (K2O) 12 %').first().waitFor();
    await page.getByRole('button', { name: 'Put it on the shelf' }).click();
    await page.locator('.shelf > li', { hasText: 'Plain Moss Feed' }).waitFor();
    // what can be taken back covers nothing for long
    expect(await page.locator('.undo.resting').count()).toBe(0);
    await page.locator('.undo.resting').waitFor();
    expect(faults).toEqual([]);
    await page.context().close();
  });

  it('keeps what was changed over a reload, and a deletion can be taken back', async () => {
    const { page } = await visit(browser, built.url);
    await goTo(page, 'Plants');
    await page.getByText('Name, money and year').click();
    await page.getByLabel('Name of the bench').fill('Ours');
    await page.getByLabel('Name of the bench').blur();
    await goTo(page, 'Shelf');
    const there = await page.locator('.shelf > li').count();
    await page.locator('.shelf > li summary').first().click();
    await page.getByRole('button', { name: 'off the shelf' }).first().click();
    await page.locator('.undo').waitFor();
    expect(await page.locator('.shelf > li').count()).toBe(there - 1);
    await page.getByRole('button', { name: 'Take back' }).click();
    expect(await page.locator('.shelf > li').count()).toBe(there);
    await page.waitForTimeout(300);
    await page.reload();
    await page.locator('main[data-place=shelf]').waitFor();
    await goTo(page, 'Plants');
    await page.getByText('Name, money and year').click();
    expect(await page.getByLabel('Name of the bench').inputValue()).toBe('Ours');
    await page.context().close();
  });

  it('says beside the field what is wrong, and takes no harm from names that are markup, script or formula', async () => {
    const { page, asked, faults } = await visit(browser, built.url);
    const evil = `<img src=x onerror="document.title='broken'"><script>document.title='broken'</script>=cmd()`;
    const shelf = `id,name,form,formula,N,notes\nkn,"${evil.replaceAll('"', '""')}",powder,KNO3,,"${evil.replaceAll('"', '""')}"\nbad,Bad,powder,,lots,\n`;
    const bench = `name: ${JSON.stringify(evil)}\nwater: rain\nfeeds:\n  ${JSON.stringify(evil)}: { plants: phalaenopsis, medium: bark }\n`;
    await bring(page, [
      { name: 'bench.yaml', buffer: Buffer.from(bench) },
      { name: 'shelf.csv', buffer: Buffer.from(shelf) },
    ]);
    await goTo(page, 'Shelf');
    const second = page.locator('.shelf > li').nth(1);
    await second.locator('.problems', { hasText: 'lots' }).first().waitFor();
    await second.locator('summary').first().click();
    expect(await second.getByLabel('N, %', { exact: true }).getAttribute('aria-invalid')).toBe('true');
    await goTo(page, 'Plants');
    await page.locator('nav').getByRole('button', { name: 'Feed' }).click();
    await page.locator('.problems', { hasText: 'lots' }).first().waitFor();
    expect(await page.locator('main img, main script').count()).toBe(0);
    expect(await page.title()).toBe('velamen');
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it('takes a product cell by cell, and says beside it what is still missing', async () => {
    const { page } = await visit(browser, built.url);
    await goTo(page, 'Shelf');
    await page.getByLabel('Fill in').check();
    await page.getByLabel('Its name').fill('Old blue jar');
    await page.getByRole('button', { name: 'A powder' }).click();
    const jar = page.locator('.shelf > li').last();
    await jar.locator('.problems', { hasText: 'no figure and no formula' }).waitFor();
    await jar.locator('summary').first().click();
    await jar.getByLabel('Formula').fill('KNO3');
    await jar.getByLabel('Formula').blur();
    await jar.locator('.brings', { hasText: 'K 387' }).waitFor();
    await goTo(page, 'Files');
    expect((await saved(page, 'shelf.csv')).toString()).toMatch(/\nold-blue-jar,Old blue jar,powder,,KNO3,[^\n]*\n$/);
    await page.context().close();
  });

  it('sets another shelf beside this one, picked or dropped; what is wrong with it stands beside it', async () => {
    const { page, asked, faults } = await visit(browser, built.url);
    await ready(page, 'moss: near its aims');
    const shelf = fileOf('moss-without-ammonium', 'shelf.csv').toString();
    await page.getByText('Another shelf beside this one').click();
    const picked = page.getByLabel('The other shelf, as a CSV file');
    const pick = (text: string) =>
      picked.setInputFiles({ name: 'shelf.csv', mimeType: 'text/csv', buffer: Buffer.from(text) });
    await pick(shelf.replace(',12.9,', ',much,'));
    await page.locator('.field', { has: picked }).getByText('"much"').waitFor();
    expect(await page.locator('.problems .error').count()).toBe(1);
    await pick(shelf);
    await page.locator('.answer', { hasText: 'moss: two shelves side by side' }).waitFor();
    await page.getByText('other shelf.csv').first().waitFor();
    const theirs = await page.evaluateHandle(
      `(() => { const all = new DataTransfer(); all.items.add(new File(['id,form,Ca\\nchalk,powder,4 0 %\\n'], 'theirs.csv')); return all; })()`,
    );
    await picked.dispatchEvent('drop', { dataTransfer: theirs });
    await page.locator('.field', { has: picked }).getByText('"4 0 %"').waitFor();
    expect([...asked, ...faults]).toEqual([]);
    await page.context().close();
  });

  it('reads a label as it is printed, and puts it on the shelf as one row more', async () => {
    const { page } = await visit(browser, built.url);
    await goTo(page, 'Shelf');
    await page.getByRole('button', { name: 'Try an invented one' }).click();
    await page.getByRole('cell', { name: 'NO3-N 7.2 %' }).waitFor();
    await page.getByRole('button', { name: 'Put it on the shelf' }).click();
    await page.locator('.undo', { hasText: 'sample-fern-feed was put on the shelf' }).waitFor();
    await goTo(page, 'Files');
    const text = (await saved(page, 'shelf.csv')).toString();
    const before = fileOf('moss-without-ammonium', 'shelf.csv').toString();
    expect(text.startsWith(before)).toBe(true);
    expect(text.slice(before.length)).toMatch(/^sample-fern-feed,Sample Fern Feed 8-4-11,powder,/);
    await page.context().close();
  });
});

/** Every number of a text, in its order, as printed; not the grades in names, which stand in the page where a terminal is told a command. */
const figuresIn = (text: string): string[] => text.replace(/\b\d+-\d+-\d+\b/g, '').match(/\d+(?:\.\d+)?/g) ?? [];
