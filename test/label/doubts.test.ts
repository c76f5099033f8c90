import { describe, expect, it } from 'vitest';
import { readProducts } from '../../src/catalog/shelf.js';
import { closeProduct } from '../../src/label/close.js';
import { gradeOf } from '../../src/label/grade-in-name.js';
import { misreadOxides } from '../../src/label/misread.js';
import type { Problem } from '../../src/problem.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';

function read(row: Record<string, string | number>) {
  const columns = Object.keys(row);
  const result = readProducts(`id,form,${columns.join(',')}\na,powder,${Object.values(row).join(',')}`, 'shelf.csv');
  if (!result.ok) throw new Error(result.problems.map((p) => p.found).join('; '));
  return { product: result.value[0]!, doubts: result.warnings.filter(({ code }) => DOUBTS.test(code)) };
}

const DOUBTS = /^(?:grade-|trace-|source-unknown|oxide-as)/;
const codes = (doubts: readonly Problem[]): string[] => doubts.map(({ code }) => code);

describe('a grade in the name', () => {
  it.each([
    ['Sample 18-9-27', [18, 9, 27]],
    ['12–5–8 Sample Leaf', [12, 5, 8]],
    ['Sample (7,5-4-9.2) powder', [7.5, 4, 9.2]],
    ['Sample 2026-11-28', null],
    ['Sample 3-1-2 and 6-2-4', null],
    ['Sample', null],
  ])('%s', (name, grade) => expect(gradeOf(name)).toEqual(grade));

  it.each([
    ['elements for oxides', { name: 'Sample 18-9-27', N: 18, P: 9, K: 27 }, ['grade-elements']],
    ['one of them alone', { name: 'Sample 18-9-27', N: 18, P2O5: 9, K: 27 }, ['grade-elements']],
    ['oxides for elements', { name: 'Sample 18-9-27', N: 18, P2O5: 3.9, K2O: 22.4 }, ['grade-oxides']],
    ['another order', { name: 'Sample 18-9-27', N: 9, P2O5: 18, K2O: 27 }, ['grade-order']],
    ['another order, as elements', { name: 'Sample 18-9-27', N: 27, P: 9, K: 18 }, ['grade-order']],
    ['other figures', { name: 'Sample 18-9-27', N: 18, P2O5: 9, K2O: 17 }, ['grade-disagrees']],
    ['the same', { name: 'Sample 18-9-27', N: 18, P2O5: 9, K2O: 27 }, []],
    ['elements that make the grade', { name: 'Sample 18-9-27', N: 18, P: 3.93, K: 22.4 }, []],
    ['rounded down', { name: 'Sample 13-0-46', N: 13.9, K2O: 46.6 }, []],
    ['no grade', { name: 'Sample', N: 18, P: 9, K: 27 }, []],
  ])('%s', (_, row, expected) => expect(codes(read(row as Record<string, string | number>).doubts)).toEqual(expected));
});

describe('a trace element that is none', () => {
  it.each([
    ['B 2 %: 0.02?', { N: 18, P2O5: 18, K2O: 18, B: 2 }, 'Is it 0.02 %?'],
    ['B 200 ppm written as such', { N: 18, P2O5: 18, K2O: 18, B: 200 / 10 }, 'Is it 0.02 %?'],
    ['Mo 0.5 %', { N: 18, P2O5: 18, K2O: 18, Mo: 0.5 }, 'Is it 0.005 %?'],
  ])('%s', (_, row, fix) => {
    const [doubt] = read(row).doubts;
    expect(doubt!.code).toBe('trace-too-much');
    expect(doubt!.fix).toContain(fix);
  });

  it('is no doubt in a product of trace elements, nor within what feeds hold', () => {
    expect(read({ Fe: 6, Mn: 3, B: 1.5 }).doubts).toEqual([]);
    expect(read({ N: 18, P2O5: 18, K2O: 18, B: 0.02, Fe: 0.3, Cu: 0.05 }).doubts).toEqual([]);
  });
});

describe('a misspelt source', () => {
  it.each([
    ['potasium nitrate', 'potassium nitrate'],
    ['Magnesum Sulphate', 'magnesium sulfate'],
    ['monoamonium phosphat', 'monoammonium phosphate'],
    ['calcium nitrat', 'calcium nitrate'],
    ['uera', 'urea'],
  ])('%s', (name, guess) => {
    expect(read({ N: 10, K2O: 5, derived_from: name }).doubts).toMatchObject([
      { code: 'source-unknown', found: `"${name}"`, fix: expect.stringContaining(`Did you mean ${guess}?`) },
    ]);
  });

  it('is no guess for what is no salt', () => {
    for (const name of ['kelp extract', 'potassium humate', 'fish hydrolysate', 'bone meal', 'seaweed', 'humic acids'])
      expect(read({ N: 10, derived_from: name }).doubts, name).toEqual([]);
  });
});

describe('figures of oxides under elements', () => {
  it.each([
    [
      'MgO and SO3, listed',
      { Mg: 15.8, S: 31.5, derived_from: 'magnesium sulfate' },
      'error',
      'MgO 15.8 %, SO3 31.5 %',
    ],
    [
      'CaO, listed',
      { N: 15.3, 'NO3-N': 14.3, 'NH4-N': 1, 'urea-N': 0, Ca: 26.2, derived_from: 'calcium nitrate' },
      'error',
      'CaO 26.2 %',
    ],
    ['MgO and SO3, no list', { Mg: 15.8, S: 31.5 }, 'warning', 'MgO 15.8 %, SO3 31.5 %'],
    ['CaO, no list', { N: 15.3, 'NO3-N': 14.3, 'NH4-N': 1, 'urea-N': 0, Ca: 26.2 }, 'warning', 'CaO 26.2 %'],
    [
      'P2O5 and K2O, listed',
      {
        N: 15,
        'NO3-N': 5,
        'NH4-N': 2.9,
        'urea-N': 7.1,
        P: 15,
        K: 15,
        derived_from: 'monoammonium phosphate; potassium nitrate; urea',
      },
      'error',
      'P2O5 15 %, K2O 15 %',
    ],
  ])('%s', async (_, row, severity, expected) => {
    const { product } = read(row as Record<string, string | number>);
    const found = await misreadOxides(await closeProduct(product));
    expect(found).toMatchObject([{ code: 'oxide-as-element', severity, expected }]);
  });

  it.each([
    ['bitter salt', { Mg: 9.8, S: 12.9 }],
    ['calcium nitrate', { N: 15.3, 'NO3-N': 14.3, 'NH4-N': 1, 'urea-N': 0, Ca: 18.8 }],
    ['the oxides in their own columns', { MgO: 15.8, SO3: 31.5, derived_from: 'magnesium sulfate' }],
    ['a list that makes neither', { Mg: 15.8, derived_from: 'potassium nitrate' }],
  ])('nothing is asked of %s', async (_, row) => {
    const { product } = read(row as Record<string, string | number>);
    expect(await misreadOxides(await closeProduct(product))).toEqual([]);
  });

  it('nothing is asked of the shipped products', async () => {
    for (const product of shippedCatalog().products)
      expect(await misreadOxides(await closeProduct(product)), product.id).toEqual([]);
  });
});
