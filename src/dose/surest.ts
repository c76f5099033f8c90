import type { OpenItem } from './choose.js';
import type { Measure } from './measure.js';

/**
 * For each item by itself the measure with the least expected square error against what is wanted: its distance and its spread count alike, so a
 * scale goes before a spoon that happens to be nearer.
 */
export function surestMeasures(items: readonly OpenItem[]): Measure[] {
  return items.map(({ wanted, measures: open }) => {
    const error = (m: Measure): number => (m.amount - wanted) ** 2 + m.sd ** 2;
    return open.reduce((best, m) => (error(m) < error(best) * (1 - EVEN) ? m : best));
  });
}

/** Errors this near are even. */
const EVEN = 1e-9;
