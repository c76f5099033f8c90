import { milliSiemensPerCm } from '../../src/units/index.js';
import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { CATALOG_FILES, type CatalogTexts, readCatalog } from '../../src/catalog/catalog.js';
import { catalogModule } from '../../src/catalog/compile.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { clean } from './told.js';

const file = (name: string) => readFileSync(new URL(`../../${name}`, import.meta.url), 'utf8');
const texts = Object.fromEntries(CATALOG_FILES.map((name) => [name, file(`catalog/${name}.csv`)])) as CatalogTexts;

describe('the compiled catalog', () => {
  it('is what the CSV files say; where this fails, `npm run catalog` writes it again', () => {
    const read = clean(readCatalog(texts));
    expect(file('src/desk/compiled-catalog.ts') === catalogModule(read)).toBe(true);
    expect(shippedCatalog()).toEqual(read);
  });

  it('takes data and maps, and nothing that a module could not say again', () => {
    const read = clean(readCatalog(texts));
    const salt = { ...read.salts[0]!, name: 'quote " and \u2028', notes: '' };
    const odd = {
      ...read,
      salts: [{ ...salt, density: Number.POSITIVE_INFINITY, ec: milliSiemensPerCm(-0), 'a-b': undefined }],
    };
    const text = catalogModule(odd);
    expect(text).toContain('name: "quote \\" and \u2028"');
    expect(text).toContain('density: Infinity');
    expect(text).toContain('ec: -0');
    expect(text).not.toContain('a-b');
    expect(() => catalogModule({ ...read, salts: [{ ...salt, notes: new Date(0) as unknown as string }] })).toThrow(
      'no plain data',
    );
  });
});
