import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';

/**
 * Σ weight · content of each column. For a cap, positive weights take the most a label allows and negative weights the
 * least; for a floor the other way round.
 */
export function termsOf(
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  weights: ReadonlyMap<Nutrient, number>,
  side: 'cap' | 'floor' | 'stated',
): Record<string, number> {
  const terms: Record<string, number> = {};
  const put = (column: string, part: (nutrient: Nutrient, weight: number) => number): void => {
    let sum = 0;
    let size = 0;
    for (const [nutrient, weight] of weights) {
      const term = weight * part(nutrient, weight);
      sum += term;
      size += Math.abs(term);
    }
    if (Math.abs(sum) > CANCELLED * size) terms[column] = sum;
  };
  shelf.forEach((product, i) => {
    put(productColumn(i), (nutrient, weight) => {
      const content = product.composition.content[nutrient];
      if (side === 'stated') return content.stated ?? content.low;
      return (side === 'cap') === weight > 0 ? content.high : content.low;
    });
  });
  waters.forEach((water, i) => {
    put(waterColumn(i), (nutrient) => waterContent(water, nutrient));
  });
  return terms;
}

/** A coefficient a − q·b this small beside its parts is rounding dust (a product that keeps the ratio exactly). */
const CANCELLED = 1e-9;

/** mg/L of a nutrient in a water; total N is the sum of its forms where not given. */
export function waterContent(water: Water, nutrient: Nutrient): number {
  const given = water.mgPerLitre[nutrient];
  if (given !== undefined || nutrient !== 'N') return given ?? 0;
  return (water.mgPerLitre['NO3-N'] ?? 0) + (water.mgPerLitre['NH4-N'] ?? 0);
}

/** Id of the column of a shelf product or a water: opaque, so that no name can clash. */
export const productColumn = (index: number): string => `p${index}`;
export const waterColumn = (index: number): string => `w${index}`;
