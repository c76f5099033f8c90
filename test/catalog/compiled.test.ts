import { milliSiemensPerCm } from '../../src/units/index.js';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOG_FILES, type CatalogTexts, readCatalog } from '../../src/catalog/catalog.js';
import { catalogModule, labelsModule, practiceModule, safetyModule } from '../../src/catalog/compile.js';
import { readSafety } from '../../src/catalog/hazards.js';
import { PRACTICE_FILES, readPractice } from '../../src/catalog/practice.js';
import { compiledSafety } from '../../src/can/compiled-hazards.js';
import { closeLabels } from '../../src/desk/close-labels.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import { solveLabels } from '../../src/label/solved.js';
import { compiledPractice } from '../../src/year/compiled-practice.js';
import { clean } from './told.js';

const file = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
const texts = Object.fromEntries(CATALOG_FILES.map((name) => [name, file(`catalog/${name}.csv`)])) as CatalogTexts;

describe('the compiled catalog', () => {
  it('is what the CSV files say; where this fails, `npm run catalog` writes it again', () => {
    const read = clean(readCatalog(texts));
    expect(file('src/desk/compiled-catalog.ts') === catalogModule(read)).toBe(true);
    expect(shippedCatalog()).toEqual(read);
  });

  it('knows the dangers of substances as the CSV files say them; where this fails, `npm run catalog` writes them again', () => {
    const read = clean(
      readSafety({ hazards: file('catalog/hazards.csv'), statements: file('catalog/statements.csv') }),
    );
    expect(file('src/can/compiled-hazards.ts') === safetyModule(read)).toBe(true);
    expect(compiledSafety).toEqual(read);
  });

  it('knows what growers do through the year as the CSV files say it; where this fails, `npm run catalog` writes it again', () => {
    const practice = Object.fromEntries(PRACTICE_FILES.map((name) => [name, file(`catalog/${name}.csv`)]));
    const read = clean(readPractice(practice as Record<(typeof PRACTICE_FILES)[number], string>));
    expect(file('src/year/compiled-practice.ts') === practiceModule(read)).toBe(true);
    expect(compiledPractice).toEqual(read);
  });

  it('holds what closing its labels solves; where this fails, `npm run catalog` writes it again', async () => {
    const { products, salts } = clean(readCatalog(texts));
    const solved = await solveLabels([...products, ...salts]);
    expect(solved.size).toBeGreaterThan(products.length / 2);
    expect(file('src/desk/compiled-labels.ts') === labelsModule(solved)).toBe(true);
  });

  it('closes a product as its programs do, of the catalog or of a shelf with the same label', async () => {
    const { products, salts } = shippedCatalog();
    const own = products.map((product) => ({ ...product, id: `my-${product.id}`, price: 1 }));
    const rows = [...products, ...salts, ...own];
    const [known, anew] = [await closeLabels(rows), await closeShelf(rows)];
    for (const [i, product] of known.entries()) {
      expect(product).toEqual(anew[i]);
      for (const key of ['composition', 'ions', 'formula', 'derivedFrom', 'measuredIons', 'disagreement'] as const)
        expect(product[key], `${product.id} ${key}`).toEqual(anew[i]![key]);
    }
  });

  it('takes data and maps, and nothing that a module could not say again', () => {
    const read = clean(readCatalog(texts));
    const salt = { ...read.salts[0]!, name: 'quote " and \u2028', notes: '' };
    const odd = {
      ...read,
      salts: [{ ...salt, density: Number.POSITIVE_INFINITY, ec: milliSiemensPerCm(-0), 'a-b': undefined }],
    };
    const text = catalogModule(odd);
    expect(text).toContain('"name":"quote \\\\" and \u2028"');
    expect(text).toContain('"density":1e999');
    expect(text).toContain('"ec":-0');
    expect(text).not.toContain('a-b');
    expect(() => catalogModule({ ...read, salts: [{ ...salt, notes: new Date(0) as unknown as string }] })).toThrow(
      'no plain data',
    );
  });
});
