import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { CACO3_PER_MEQ } from '../chemistry/acidity.js';
import type { Measured } from '../chemistry/nutrients.js';

/** Terms made before, by shelf, waters, then side and weights: a plan asks the same rows of some hundred programs. */
const MADE = new WeakMap<
  readonly ClosedProduct[],
  WeakMap<readonly Water[], Map<string, Readonly<Record<string, number>>>>
>();

function madeFor(
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
): Map<string, Readonly<Record<string, number>>> {
  const byWaters = MADE.get(shelf) ?? new WeakMap<readonly Water[], Map<string, Readonly<Record<string, number>>>>();
  MADE.set(shelf, byWaters);
  const made = byWaters.get(waters) ?? new Map<string, Readonly<Record<string, number>>>();
  byWaters.set(waters, made);
  return made;
}

/**
 * Σ weight · content of each column. For a cap, positive weights take the most a label allows and negative weights the
 * least; for a floor the other way round.
 */
export function termsOf(
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  weights: ReadonlyMap<Measured, number>,
  side: 'cap' | 'floor' | 'stated',
): Readonly<Record<string, number>> {
  const made = madeFor(shelf, waters);
  const key = `${side} ${[...weights].join(' ')}`;
  const before = made.get(key);
  if (before) return before;
  const terms = sumsOf(shelf, waters, weights, side);
  made.set(key, terms);
  return terms;
}

function sumsOf(
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  weights: ReadonlyMap<Measured, number>,
  side: 'cap' | 'floor' | 'stated',
): Record<string, number> {
  const terms: Record<string, number> = {};
  const put = (column: string, part: (measured: Measured, weight: number) => number): void => {
    let sum = 0;
    let size = 0;
    for (const [measured, weight] of weights) {
      const term = weight * part(measured, weight);
      sum += term;
      size += Math.abs(term);
    }
    if (Math.abs(sum) > CANCELLED * size) terms[column] = sum;
  };
  shelf.forEach((product, i) => {
    put(productColumn(i), (measured, weight) => {
      const content = contentOf(product, measured);
      if (side === 'stated') return content.stated ?? content.low;
      return (side === 'cap') === weight > 0 ? content.high : content.low;
    });
  });
  waters.forEach((water, i) => {
    put(waterColumn(i), (measured) => waterContent(water, measured));
  });
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
