import { describe, expect, it } from 'vitest';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { formula, NUTRIENTS, nutrientsPerGram, type Nutrient, perNutrient } from '../../src/chemistry/index.js';
import { blend } from '../../src/blend/blend.js';
import { powder, request } from '../feed/fixtures.js';
import { made } from '../feed/answers.js';

/** A pure salt as a product, composition from its formula. */
function salt(text: string): ClosedProduct {
  const mg = nutrientsPerGram(formula(text));
  const content = perNutrient((n) => ({ low: mg[n] ?? 0, stated: mg[n] ?? 0, high: mg[n] ?? 0 }));
  return powder(text, {}, { formula: text, composition: { per: 'g', content, open: [] } });
}

// Hoagland & Arnon 1950, Calif. Agr. Expt. Sta. Circ. 347, solution 1, read by quotation: KNO3 5, Ca(NO3)2 5, KH2PO4 1, MgSO4 2 mmol/L;
// micros 2.86 mg H3BO3, 1.81 MnCl2·4H2O, 0.22 ZnSO4·7H2O, 0.08 CuSO4·5H2O, 0.02 H2MoO4·H2O per litre.
const RECIPE: [string, number][] = [
  ['KNO3', 0.5055],
  ['Ca(NO3)2·4H2O', 1.1807],
  ['KH2PO4', 0.1361],
  ['MgSO4·7H2O', 0.4929],
  ['H3BO3', 0.00286],
  ['MnCl2·4H2O', 0.00181],
  ['ZnSO4·7H2O', 0.00022],
  ['CuSO4·5H2O', 0.00008],
  ['H2MoO4·H2O', 0.00002],
];
const shelf = RECIPE.map(([text]) => salt(text));

describe('Hoagland & Arnon solution 1, backward', () => {
  it('finds the published recipe from its elements within 0.5 %', async () => {
    // N 210, P 31, K 235, Ca 200, Mg 48.6, S 64 are the published figures; the micros are printed to one digit (Cu 0.02, Mo 0.01), too
    // coarse for 0.5 %, so they are computed from the published salts instead.
    const published: Partial<Record<Nutrient, number>> = { N: 210, P: 31, K: 235, Ca: 200, Mg: 48.6, S: 64 };
    const aims = { ...published };
    for (const n of ['B', 'Mn', 'Zn', 'Cu', 'Mo'] as const) {
      aims[n] = RECIPE.reduce((sum, [, g], i) => sum + g * shelf[i]!.composition.content[n].low, 0);
    }
    const bands = Object.fromEntries(
      Object.entries(aims).map(([n, aim]) => [n, { min: aim * 0.98, aim, max: aim * 1.02 }]),
    );
    const result = made(await blend(request(shelf, bands, { goal: 'closest' })));
    expect(result.proof.verdict).toBe('optimal');
    for (const [text, grams] of RECIPE) {
      const found = result.items.find((i) => i.id === text)!.gramsPerLitre!;
      expect(Math.abs(found / grams - 1), text).toBeLessThan(0.005);
    }
    expect(result.proof.stages.every((s) => s.gap <= 1e-6 && s.violation <= 1e-6)).toBe(true);
  });

  it('reads the recipe forward to the same elements, nothing else in it', async () => {
    const grams = shelf.map((p, i) => ({ p, g: RECIPE[i]![1] }));
    const total = (n: Nutrient): number => grams.reduce((sum, { p, g }) => sum + g * p.composition.content[n].low, 0);
    // published to the milligram (S 64, Mg 48.6): within 0.4 %
    for (const [n, mg] of [
      ['N', 210],
      ['P', 31],
      ['K', 235],
      ['Ca', 200],
      ['Mg', 48.6],
      ['S', 64],
    ] as [Nutrient, number][]) {
      expect(Math.abs(total(n) / mg - 1), n).toBeLessThan(0.004);
    }
    expect(NUTRIENTS.filter((n) => total(n) > 0).sort()).toEqual(
      ['N', 'NO3-N', 'P', 'K', 'Ca', 'Mg', 'S', 'Cl', 'Mn', 'Zn', 'Cu', 'B', 'Mo'].sort(),
    );
  });
});
