import type { PowderKnown } from '../label/product.js';
import { roundDigits } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';

/** g/mL of a level powder with its relative standard deviation and where it is from. */
export interface BulkDensity {
  gramsPerMillilitre: number;
  spread: number;
  from: 'shelf' | 'catalog';
}

/** A grower's own figure, by ten spoons weighed: good to 5 % (from memory). */
const OWN_SPREAD = 0.05;
/** One powder varies by a fifth with grain and damp (from memory): taken as two standard deviations. */
const CATALOG_SPREAD = 0.1;

/**
 * The level bulk density of a powder: its own, else that of the known product with its id or formula; null where nobody knows, and then
 * no spoon measures it.
 */
export function bulkDensityOf(product: ClosedProduct, known: readonly PowderKnown[] = []): BulkDensity | null {
  if (product.form !== 'powder') return null;
  if (product.bulkDensity !== undefined)
    return {
      gramsPerMillilitre: product.bulkDensity,
      spread: spreadOf(product, product.bulkDensity),
      from: 'shelf',
    };
  const same =
    known.find((other) => other.id === product.id && other.bulkDensity !== undefined) ??
    known.find(
      (other) => product.formula !== undefined && other.formula === product.formula && other.bulkDensity !== undefined,
    );
  if (same?.bulkDensity === undefined) return null;
  return { gramsPerMillilitre: same.bulkDensity, spread: CATALOG_SPREAD, from: 'catalog' };
}

/** The product with the bulk density of a known one, and its spread, where it has none of its own; all else is the same. */
export function withBulkDensity(product: ClosedProduct, known: readonly PowderKnown[]): ClosedProduct {
  const bulk = product.bulkDensity === undefined ? bulkDensityOf(product, known) : null;
  if (bulk === null) return product;
  const { gramsPerMillilitre: bulkDensity, spread } = bulk;
  return product.with({ bulkDensity, bulkDensityOff: roundDigits(2 * spread * bulkDensity, 2) });
}

/** Half of what the shelf says it may be off; else by where the row is from. */
function spreadOf({ bulkDensityOff, evidence }: ClosedProduct, bulkDensity: number): number {
  if (bulkDensityOff !== undefined) return bulkDensityOff / 2 / bulkDensity;
  return evidence === 'grower' ? OWN_SPREAD : CATALOG_SPREAD;
}
