import { isOrganic } from '../can/organic.js';
import { mixingRank } from '../can/order.js';
import type { Part } from '../can/part.js';
import { staysClear } from '../can/sequence.js';
import { hypot } from '../units/elementary.js';
import { type CanByPen, type ItemByPen, shows } from './by-pen.js';
import { leastStep, MOST_UNTOLD } from './told-by-pen.js';

/** An order of items, and how surely the pen tells each. */
export interface PenOrder {
  items: ItemByPen[];
  /** Sum of the squares of the relative errors of two dips, over the items that conduct; that of the usual order beside it. */
  error: number;
  usual: number;
}

/** Beyond this many items the sets are too many to ask for clouds; the usual order stands. */
const MOST_TRIED = 7;
/** So much better, as a share, an order has to be to be told instead of the usual one. */
const BETTER = 0.05;

/**
 * The order in which the pen tells the doses best: all orders are tried in which no step is cloudier than the whole can. Both what a step
 * is like and what the pen shows after it depend on what is in the can alone, so the best way to each set of items is kept, from the smaller
 * to the larger (dynamic programming over subsets). Small increments come out first, while a share of the reading is little.
 */
export function orderForPen(can: CanByPen): PenOrder {
  const items = [...can.items].sort((a, b) => mixingRank(a.product) - mixingRank(b.product));
  const parts = items.map(({ product, amount }): Part => ({ product, perLitre: amount / can.litres }));
  const whole = 2 ** items.length - 1;
  const inSet = (set: number): number[] => items.flatMap((_, i) => (set & (1 << i) ? [i] : []));
  const readings = new Map<number, number>();
  const reads = (set: number): number => {
    const known =
      readings.get(set) ??
      shows(
        can,
        inSet(set).map((i) => parts[i]!),
      );
    readings.set(set, known);
    return known;
  };
  const errorOf = (set: number, i: number): number => {
    if (isOrganic(items[i]!.product)) return 0;
    const [before, after] = [reads(set), reads(set | (1 << i))];
    const { each, digit, scale } = can.pen;
    const last = digit / 2 / (scale ?? 1);
    const error = hypot(each * before, each * after, last, last);
    const step = after - before;
    // what the pen does not tell goes by measure
    return (step < leastStep(error) ? MOST_UNTOLD : error / step) ** 2;
  };
  const usual = items.reduce((sum, _, i) => sum + errorOf((1 << i) - 1, i), 0);
  if (items.length > MOST_TRIED) return { items, error: usual, usual };
  const clear = staysClear(parts, can.waters, can.temperatureC);
  const best = bestWay(items.length, errorOf, (set) => clear(inSet(set)));
  const usualIsClear = items.every((_, i) => clear(inSet((2 << i) - 1)));
  const chosen = best[whole];
  if (!chosen || (usualIsClear && chosen.error > usual * (1 - BETTER))) return { items, error: usual, usual };
  return { items: chosen.order.map((i) => items[i]!), error: chosen.error, usual };
}

interface Way {
  order: number[];
  error: number;
}

/** The best way to every set that can be reached; sets as bits. */
function bestWay(
  count: number,
  errorOf: (set: number, next: number) => number,
  clear: (set: number) => boolean,
): Way[] {
  const ways: Way[] = [{ order: [], error: 0 }];
  for (let set = 0; set < 2 ** count - 1; set += 1) {
    const way = ways[set];
    if (!way) continue;
    for (let i = 0; i < count; i += 1) {
      const next = set | (1 << i);
      if (next === set || !(ways[next] || clear(next))) continue;
      const error = way.error + errorOf(set, i);
      if (!ways[next] || error < ways[next].error - 1e-12) ways[next] = { order: [...way.order, i], error };
    }
  }
  return ways;
}
