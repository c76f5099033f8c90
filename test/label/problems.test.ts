import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { allowance, ANALYSIS_COLUMNS, type Analysis, labelLine, readAnalysis } from '../../src/label/index.js';
import { accepted, powder, refused } from './labels.js';
import { unwrap } from '../../src/problem.js';
import { BOUNDS } from '../../src/units/index.js';

const liquid = (more: Partial<Analysis>): Analysis => ({ form: 'liquid', percent: { N: 5 }, ...more });

describe('labels that cannot be', () => {
  it.each<[string, Analysis, RegExp]>([
    ['no figures at all', powder({}), /^analysis-empty: .*formula of a pure salt/],
    ['a negative figure', powder({ N: 10, Fe: -1 }), /^percent Fe: -1 %/],
    ['a figure above 100', powder({ N: 101 }), /^percent N: 101 %/],
    ['no number', powder({ N: 10, Zn: Number.NaN }), /^percent Zn: NaN/],
    [
      'forms above the total',
      powder({ N: 20, 'NO3-N': 12, 'NH4-N': 9 }),
      /^nitrogen-forms N: forms that add up to 21 %/,
    ],
    [
      'four forms below the total',
      powder({ N: 20, 'NO3-N': 5, 'NH4-N': 5, 'urea-N': 5, 'other-N': 0 }),
      /^nitrogen-forms N: .*5 % is in no form/,
    ],
    [
      'nitrogen that no source holds',
      powder({ N: 10, K2O: 20 }, { derivedFrom: ['urea'], percent: { N: 10, 'urea-N': 5 } }),
      /^nitrogen-forms N: .*No source/,
    ],
    [
      'element under an oxide header',
      powder({ N: 10, K2O: 20, K: 20 }),
      /^oxide-and-element K: .*16\.6 %.*0\.8302 × K2O/,
    ],
    ['more than fits', powder({ N: 40, 'NO3-N': 20, 'NH4-N': 20, P2O5: 50, K2O: 40 }), /^analysis-over-100: .*100 g/],
    ['a powder by volume', powder({ N: 10 }, { basis: 'w/v' }), /^basis basis: /],
    ['a liquid by mass without density', liquid({}), /^density-missing density: .*Weigh 100 mL/],
    ['an absurd density', liquid({ density: 12 }), /^density density: 12 g\/mL/],
    ['a density below any liquid', liquid({ density: 0.12 }), /^density density: /],
    ['a purity without formula', powder({ N: 10 }, { purity: 85 }), /^purity purity: /],
    ['a purity above 100', powder({}, { formula: 'KNO3', purity: 120 }), /^purity purity: 120/],
    [
      'a formula against its figures',
      powder({ P2O5: 52, K2O: 44 }, { formula: 'KH2PO4' }),
      /^formula-disagrees K: K 36\.53 %/,
    ],
    [
      'the wrong hydrate',
      powder({ Mg: 9.8 }, { formula: 'MgSO4' }),
      /^formula-disagrees Mg: .*water of crystallisation/,
    ],
    ['a figure too small to be one', powder({ N: 10, Cl: 1e-308 }), /^percent Cl: 1e-308 %/],
    ['a formula that cannot be read', powder({}, { formula: 'kno3' }), /^formula formula: "k"/],
  ])('%s', (_, analysis, reason) => {
    expect(refused(analysis)).toEqual([expect.stringMatching(reason)]);
  });

  it('lists all problems at once', () => {
    const found = refused(liquid({ percent: { N: 20, 'NO3-N': 16, 'NH4-N': 14, P2O5: 20, P: 20, Fe: -1 } }));
    expect(found.map((line) => line.split(':')[0])).toEqual([
      'density-missing density',
      'oxide-and-element P',
      'percent Fe',
      'nitrogen-forms N',
    ]);
  });
});

describe('labels that are read with a warning', () => {
  const warningsOf = (analysis: Analysis): string[] => accepted(analysis).warnings.map((w) => `${w.code}: ${w.fix}`);

  it.each<[string, Analysis, RegExp]>([
    ['forms without the total', powder({ 'NO3-N': 17, 'NH4-N': 17 }), /^nitrogen-total-missing: .*34 %/],
    [
      'forms short of the total',
      powder({ N: 20, 'NO3-N': 5, 'NH4-N': 5 }),
      /^nitrogen-forms: The other 10 %.*urea or another form/,
    ],
    ['oxide and element that agree', powder({ K2O: 20, K: 16.6 }), /^oxide-and-element: .*figure for K/],
    ['a formula without nutrients', powder({}, { formula: 'C6H8O7' }), /^formula: /],
  ])('%s', (_, analysis, reason) => {
    expect(warningsOf(analysis)).toEqual([expect.stringMatching(reason)]);
  });

  it('says nothing about labels that are in order', () => {
    expect(warningsOf(powder({ N: 20, 'NO3-N': 5.61, 'NH4-N': 3.96, 'urea-N': 10.43, P2O5: 20, K2O: 20 }))).toEqual([]);
    expect(warningsOf(powder({ P2O5: 52, K2O: 34 }, { formula: 'KH2PO4' }))).toEqual([]);
    expect(warningsOf(powder({ N: 13, K2O: 46 }, { formula: 'KNO3' }))).toEqual([]);
  });

  it('accepts products that are almost all nutrient', () => {
    // Guaranteed analyses of pure grades as sold; common practice, no source.
    const grades: Analysis['percent'][] = [
      { N: 46, 'urea-N': 46 },
      { N: 34, 'NO3-N': 17, 'NH4-N': 17 },
      { P2O5: 60, K2O: 40 },
      { N: 82, 'NH4-N': 82 },
      { S: 99.5 },
      { N: 12, 'NH4-N': 12, P2O5: 61 },
    ];
    for (const percent of grades) expect(warningsOf(powder(percent))).toEqual([]);
  });
});

describe('investigational allowances, New Hampshire Agr 1105.04', () => {
  it.each([
    ['Ca', 10, 0.7],
    ['Mg', 2, 0.3],
    ['S', 20, 1],
    ['B', 0.02, 0.006],
    ['Mo', 0.001, 0.0004],
    ['Fe', 0.1, 0.015],
    ['Cl', 50, 1],
  ] as const)('%s guaranteed at %s %%: %s', (nutrient, percent, expected) => {
    expect(allowance(nutrient, percent)).toBeCloseTo(expected, 10);
  });

  it('gives none for nitrogen, phosphate and potash', () => {
    expect(['N', 'P', 'K'].map((n) => allowance(n as 'N', 10))).toEqual([undefined, undefined, undefined]);
  });
});

describe('laws', () => {
  const figure = fc.oneof(fc.constant(0), fc.double({ min: BOUNDS.labelFigure.least, max: 15, noNaN: true }));
  const analyses: fc.Arbitrary<Analysis> = fc.record({
    form: fc.constantFrom('powder' as const, 'liquid' as const),
    basis: fc.constantFrom('w/w' as const, 'w/v' as const),
    density: fc.option(fc.double({ min: 0.6, max: 2.2, noNaN: true }), { nil: undefined }),
    derivedFrom: fc.subarray([
      'urea',
      'potassium nitrate',
      'calcium nitrate',
      'magnesium sulfate',
      'copper sulfate',
      'iron EDTA',
      'kelp',
    ]),
    percent: fc
      .uniqueArray(fc.tuple(fc.constantFrom(...ANALYSIS_COLUMNS), figure), {
        selector: ([c]) => c,
        maxLength: 8,
      })
      .map((cells) => Object.fromEntries(cells)),
  }) as fc.Arbitrary<Analysis>;

  it('low ≤ stated ≤ high, all finite and at most the product itself', () => {
    fc.assert(
      fc.property(analyses, (analysis) => {
        const result = readAnalysis(analysis);
        fc.pre(result.ok);
        const { per, content } = unwrap(result);
        const whole = per === 'g' ? 1000 : 2200;
        for (const [nutrient, { low, stated, high }] of Object.entries(content)) {
          expect(low, nutrient).toBeGreaterThanOrEqual(0);
          expect(stated ?? low, nutrient).toBeGreaterThanOrEqual(low);
          expect(high, nutrient).toBeGreaterThanOrEqual(stated ?? low);
          expect(high, nutrient).toBeLessThanOrEqual(whole * 1.006);
        }
      }),
    );
  });

  it('a report line shows shares of nitrogen that sum to 1, whatever part of it has a form', () => {
    const part = fc.double({ min: 0.01, max: 8, noNaN: true });
    fc.assert(
      fc.property(part, part, part, part, (nitrate, ammonium, urea, rest) => {
        const N = nitrate + ammonium + urea + rest;
        const { composition } = accepted(powder({ N, 'NO3-N': nitrate, 'NH4-N': ammonium, 'urea-N': urea }));
        const { nitrogenShares } = labelLine({ id: 'a', name: 'a', composition });
        const shares = Object.values(nitrogenShares!);
        expect(shares.reduce((sum, share) => sum + share, 0)).toBeCloseTo(1, 9);
        expect(nitrogenShares!.nitrate).toBeCloseTo(nitrate / N, 9);
      }),
    );
  });

  it('a named source can only narrow or name, never hide a stated figure', () => {
    fc.assert(
      fc.property(analyses, (analysis) => {
        const withSources = readAnalysis(analysis);
        const without = readAnalysis({ ...analysis, derivedFrom: [] });
        fc.pre(withSources.ok && without.ok);
        for (const nutrient of ['P', 'K', 'Ca', 'Mg', 'N'] as const)
          expect(unwrap(withSources).content[nutrient].stated).toBe(unwrap(without).content[nutrient].stated);
      }),
    );
  });
});
