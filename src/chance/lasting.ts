import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import { bulkDensityOf } from '../dose/density.js';
import type { Measure } from '../dose/measure.js';
import type { Tool } from '../dose/tools.js';
import { hypot } from '../units/elementary.js';

/**
 * Share of a dose that is off each time alike, as a standard deviation: the habit of the hands with that tool and, by the spoon, how the
 * powder lies in it. What is left of a dose's spread is new with each dose.
 */
export function lastingSpread(
  product: ClosedProduct,
  kind: Measure['tool'],
  tools: readonly Tool[],
  known: readonly PowderKnown[] = [],
): number {
  const common = tools.find((tool) => tool.kind === kind)?.common ?? 0;
  return hypot(common, kind === 'spoon' ? (bulkDensityOf(product, known)?.spread ?? 0) : 0);
}

/** Share of a dose that is new with each dose. @param sd of the dose, as a share */
export const freshSpread = (sd: number, lasting: number): number => Math.sqrt(Math.max(0, sd ** 2 - lasting ** 2));
