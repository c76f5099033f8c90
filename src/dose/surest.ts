import type { Chosen, OpenItem } from './choose.js';
import type { Measure } from './measure.js';

/**
 * For each item by itself the measure with the least expected square error against what is wanted: its distance and its spread count alike, so a
 * scale goes before a spoon that happens to be nearer.
 */
export function surestMeasures(items: readonly OpenItem[]): Chosen {
  const measures = items.map(({ wanted, measures: open }) => {
    const error = (m: Measure): number => (m.amount - wanted) ** 2 + m.sd ** 2;
    return open.reduce((best, m) => (error(m) < error(best) * (1 - EVEN) ? m : best));
  });
  const deviation = measures.reduce((sum, m, i) => sum + Math.abs(m.amount - items[i]!.wanted) / items[i]!.wanted, 0);
  return { measures, violation: 0, by: 'best found', deviation };
}

/** Errors this near are even. */
const EVEN = 1e-9;
