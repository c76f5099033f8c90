import type { Amounts } from '../../src/can/mix-amounts.js';
import { missesOf, readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { endsOf } from './ends.js';

/** A way to dose that the exhaustive search found. */
export interface Way {
  doses: number[];
  /** Sum of the relative deviations from the blend. */
  deviation: number;
}

/**
 * The closest choice by trying all: nested loops over every measure of every item, nearest first, with nothing passed over but what is
 * farther from the blend than the best so far, or than `within`, or brings too much of an element already. Bands and rules are summed up from the labels; what keeps them is read out
 * whole, with its EC. Shares no code with the search under test.
 */
export function tryAll(
  request: FeedRequest,
  amounts: Amounts,
  items: readonly { shelf: number; wanted: number; amounts: readonly number[] }[],
  within = Number.POSITIVE_INFINITY,
): Way | null {
  const batch = request.header.batchLitres!;
  const lists = items.map((item) =>
    item.amounts
      .map((amount) => ({ amount, off: Math.abs(amount - item.wanted) / item.wanted }))
      .sort((a, b) => a.off - b.off),
  );
  const ends = endsOf(request, amounts);
  const weights = items.map((item) => ends.map((end) => end.of(item.shelf) / batch));
  const sums = [ends.map((end) => end.water), ...items.map(() => ends.map(() => 0))];
  /** What no further item can take back. */
  const oneWay = ends.flatMap((_, e) => (weights.every((own) => own[e]! >= 0) ? [e] : []));
  const products = amounts.products.map(() => 0);
  let best: Way | null = null;
  const loop = (k: number, off: number): void => {
    const here = sums[k]!;
    if (k === items.length) {
      if (here.some((sum, e) => sum > ends[e]!.most)) return;
      if (missesOf(readOut({ products, waters: amounts.waters }, request)).length > 0) return;
      best = { doses: items.map((item) => products[item.shelf]! * batch), deviation: off };
      return;
    }
    const [weight, next] = [weights[k]!, sums[k + 1]!];
    for (const measure of lists[k]!) {
      if (off + measure.off >= Math.min(within, best?.deviation ?? Number.POSITIVE_INFINITY)) return;
      for (let e = 0; e < ends.length; e += 1) next[e] = here[e]! + measure.amount * weight[e]!;
      if (oneWay.some((e) => next[e]! > ends[e]!.most)) continue;
      products[items[k]!.shelf] = measure.amount / batch;
      loop(k + 1, off + measure.off);
    }
  };
  loop(0, 0);
  return best;
}
