import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { CACO3_PER_MEQ } from '../chemistry/acidity.js';
import type { Measured } from '../chemistry/nutrients.js';

/**
 * Σ weight · content of each column. For a cap, positive weights take the most a label allows and negative weights the
 * least; for a floor the other way round.
 */
export function termsOf(
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  weights: ReadonlyMap<Measured, number>,
  side: 'cap' | 'floor' | 'stated',
): Record<string, number> {
  const terms: Record<string, number> = {};
  // plain loops: a plan asks for these rows some ten thousand times
  for (let i = 0; i < shelf.length; i += 1) {
    let sum = 0;
    let size = 0;
    for (const [measured, weight] of weights) {
      const { low, stated, high } = contentOf(shelf[i]!, measured);
      const content = side === 'stated' ? (stated ?? low) : (side === 'cap') === weight > 0 ? high : low;
      sum += weight * content;
      size += Math.abs(weight * content);
    }
    if (Math.abs(sum) > CANCELLED * size) terms[productColumn(i)] = sum;
  }
  for (let i = 0; i < waters.length; i += 1) {
    let sum = 0;
    let size = 0;
    for (const [measured, weight] of weights) {
      const term = weight * waterContent(waters[i]!, measured);
      sum += term;
      size += Math.abs(term);
    }
    if (Math.abs(sum) > CANCELLED * size) terms[waterColumn(i)] = sum;
  }
  return terms;
}

/** A coefficient a − q·b this small beside its parts is rounding dust (a product that keeps the ratio exactly). */
const CANCELLED = 1e-9;

/** mg in a g or mL of a product, alkalinity as CaCO3 by the likeliest make-up: as its label leaves them open, and as it states them. */
export function contentOf(
  { composition, ions }: ClosedProduct,
  measured: Measured,
): { low: number; stated: number | null; high: number } {
  if (measured !== 'alkalinity') return composition.content[measured];
  const brings = CACO3_PER_MEQ * ions.value.alkalinity;
  return { low: brings, stated: brings, high: brings };
}

/** mg/L in a water, alkalinity as CaCO3; total N is the sum of its forms where not given. */
export function waterContent(water: Water, nutrient: Measured): number {
  if (nutrient === 'alkalinity') return water.alkalinity;
  const given = water.mgPerLitre[nutrient];
  if (given !== undefined || nutrient !== 'N') return given ?? 0;
  return (water.mgPerLitre['NO3-N'] ?? 0) + (water.mgPerLitre['NH4-N'] ?? 0);
}

/** Id of the column of a shelf product or a water: opaque, so that no name can clash. */
export const productColumn = (index: number): string => `p${index}`;
export const waterColumn = (index: number): string => `w${index}`;
