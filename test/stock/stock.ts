import { millilitres } from '../../src/units/index.js';
import { readFileSync } from 'node:fs';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import type { Product } from '../../src/label/product.js';
import { readSolubility } from '../../src/catalog/solubility.js';
import { formula, nutrientsPerGram } from '../../src/chemistry/formula.js';
import { perNutrient } from '../../src/chemistry/nutrients.js';
import { solutionChemistry } from '../../src/chemistry/solution/index.js';
import { concentrate } from '../../src/stock/concentrate.js';
import type { LargestLine, StocksMade } from '../../src/stock/concentrate-result.js';
import type { ConcentrateRequest } from '../../src/stock/concentrate-request.js';
import { clean } from '../catalog/told.js';
import { powder, pure, water } from '../feed/fixtures.js';

export const table = clean(
  readSolubility(
    readFileSync(new URL('../../catalog/solubility.csv', import.meta.url), 'utf8'),
    'catalog/solubility.csv',
  ),
);

/** A pure salt as a powder on the shelf. */
export function salt(text: string, more: Partial<Product> = {}): ClosedProduct {
  const mg = nutrientsPerGram(formula(text));
  const content = perNutrient((n) => ({ low: mg[n], stated: mg[n], high: mg[n] }));
  const composition = { per: 'g' as const, content, open: [] };
  return powder(text, {}, { composition, formula: text, source: 'atomic weights', evidence: 'handbook', ...more });
}

/**
 * Hoagland & Arnon 1950, Calif. Agr. Expt. Sta. Circ. 347, solution 1: KNO3 5, Ca(NO3)2 5, KH2PO4 1, MgSO4 2 mmol/L; g/L from the
 * atomic weights.
 */
export const HOAGLAND: [string, number][] = [
  ['KNO3', 0.50551],
  ['Ca(NO3)2·4H2O', 1.18073],
  ['KH2PO4', 0.136084],
  ['MgSO4·7H2O', 0.492932],
];

export function stock(
  recipe: readonly (readonly [string | ClosedProduct, number])[],
  more: Partial<ConcentrateRequest> = {},
) {
  return concentrate(
    {
      feed: null,
      recipe: 'test',
      items: recipe.map(([product, perLitre]) => ({
        product: typeof product === 'string' ? salt(product) : product,
        perLitre,
      })),
      waters: [{ water: pure, share: 1 }],
      weeklyLitres: null,
      ratio: 100,
      tanks: null,
      jugMillilitres: millilitres(1000),
      coldestCelsius: 10,
      scaleStepGrams: null,
      remark: null,
      ...more,
    },
    solutionChemistry,
    table,
  );
}

/** The same, where it must come out as bottles. */
export function stocksOf(...asked: Parameters<typeof stock>): StocksMade {
  const result = stock(...asked);
  if (result.status !== 'made') throw new Error(`no stock: ${result.status}`);
  return result;
}

/** The strongest that hold, made at the ratio asked or not. */
export function strongestOf(...asked: Parameters<typeof stock>): LargestLine[] {
  const result = stock(...asked);
  if (result.status === 'nothing to dissolve') throw new Error(result.status);
  return result.largest;
}

/** The median tap of North America: Argo, Biernbaum & Warncke 1997, HortTechnology 7:49. */
export const tap = water({
  id: 'tap',
  name: 'tap',
  mgPerLitre: { Ca: 40, Mg: 11, S: 8, Na: 13, Cl: 14 },
  alkalinity: 130,
});
