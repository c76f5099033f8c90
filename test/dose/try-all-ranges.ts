import type { Amounts } from '../../src/can/mix-amounts.js';
import { missesOf, readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Mix } from '../../src/feed/results.js';
import { type End, endsOf } from './ends.js';
import type { Way } from './try-all.js';

/** An item with every measure that is open to it. */
export interface Open {
  shelf: number;
  wanted: number;
  amounts: readonly number[];
}

/** What the search went through. */
export interface Search {
  best: Way | null;
  /** Partial choices looked at. */
  partial: number;
  /** Whole choices read out. */
  whole: number;
}

/**
 * The closest choice by trying all, for benches that nested loops alone would take hours for. Nothing is cut wrongly: an amount of an item is passed over only if
 * some limit — a sum of amounts times contents, from the labels — would be broken even where every item still open takes whichever of
 * nothing and its largest amount helps that limit most; or if the amounts so far are already farther from the blend than `within` or the
 * best. As each limit is linear, the amounts left to an item are one range, found by dividing; the last item is thereby solved for.
 * What is left is read out whole, with its EC by the full model. Shares no code with the search under test.
 */
export function tryRanges(
  request: FeedRequest,
  amounts: Amounts,
  open: readonly Open[],
  within = Number.POSITIVE_INFINITY,
  limits: { ends: readonly End[]; hold: (mix: Mix) => boolean } = {
    ends: endsOf(request, amounts),
    hold: (mix) => missesOf(mix).length === 0,
  },
): Search {
  const batch = request.header.batchLitres!;
  const items = open
    .map((item) => ({ ...item, amounts: [...item.amounts].sort((a, b) => a - b) }))
    .sort((a, b) => a.amounts.length - b.amounts.length);
  const { ends, hold } = limits;
  const weights = items.map((item) => ends.map((end) => end.of(item.shelf) / batch));
  /** What the items after k can do for a limit at most. */
  const help = items.map((_, k) =>
    ends.map((_, e) =>
      items
        .slice(k + 1)
        .reduce((sum, { amounts: own }, j) => sum + Math.min(0, weights[k + 1 + j]![e]! * own.at(-1)!), 0),
    ),
  );
  const sums = [ends.map((end) => end.water), ...items.map(() => ends.map(() => 0))];
  const products = amounts.products.map(() => 0);
  const search: Search = { best: null, partial: 0, whole: 0 };
  const loop = (k: number, off: number): void => {
    if (k === items.length) {
      search.whole += 1;
      if (!hold(readOut({ products, waters: amounts.waters }, request))) return;
      search.best = { doses: open.map((item) => products[item.shelf]! * batch), deviation: off };
      return;
    }
    const { shelf, wanted, amounts: own } = items[k]!;
    const [here, next, weight] = [sums[k]!, sums[k + 1]!, weights[k]!];
    const left = Math.min(within, search.best?.deviation ?? Number.POSITIVE_INFINITY) - off;
    let low = wanted * (1 - left);
    let high = wanted * (1 + left);
    for (let e = 0; e < ends.length; e += 1) {
      const w = weight[e]!;
      const room = ends[e]!.most - here[e]! - help[k]![e]!;
      if (w > 0) high = Math.min(high, room / w);
      else if (w < 0) low = Math.max(low, room / w);
      else if (room < -SLIP) return;
    }
    [low, high] = [low - SLIP * wanted, high + SLIP * wanted];
    for (let j = firstFrom(own, low); j < own.length && own[j]! <= high; j += 1) {
      const amount = own[j]!;
      const here2 = off + Math.abs(amount - wanted) / wanted;
      if (here2 >= Math.min(within, search.best?.deviation ?? Number.POSITIVE_INFINITY)) continue;
      search.partial += 1;
      for (let e = 0; e < ends.length; e += 1) next[e] = here[e]! + amount * weight[e]!;
      products[shelf] = amount / batch;
      loop(k + 1, here2);
    }
    products[shelf] = 0;
  };
  loop(0, 0);
  return search;
}

/** What summing up may slip; lets a little more through, which the reading then refuses. */
const SLIP = 1e-9;

function firstFrom(sorted: readonly number[], low: number): number {
  let [from, to] = [0, sorted.length];
  while (from < to) {
    const middle = (from + to) >> 1;
    if (sorted[middle]! < low) from = middle + 1;
    else to = middle;
  }
  return from;
}
