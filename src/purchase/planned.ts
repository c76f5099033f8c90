import { givenFeed } from '../blend/given.js';
import type { GivenMade, GivenResult } from '../blend/given-types.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import { litres } from '../units/index.js';
import type { Joint } from './program.js';
import type { Settled } from './settle.js';

/** A can as `blend` assumes it where nobody names a batch. */
const USUAL_BATCH = litres(4);
const WEEKS = 52;

/**
 * Each feed as `blend` would give it from what is on hand and bought, or that the kit gives none; null where nobody says what hands mix it. Where that would use up a
 * stock before the weeks are over, the feed is given within its share of the stock.
 * @param requests the feeds as they were asked for, not yet held near
 * @param available g or mL of each candidate; Infinity where the stock is unknown
 */
export async function plannedFeeds(
  joint: Joint,
  requests: readonly FeedRequest[],
  available: readonly number[],
  settled: Settled,
  factor: number,
): Promise<(GivenResult | null)[]> {
  const { hands } = joint.request;
  if (hands === undefined) return requests.map(() => null);
  const plan = async (shelves: readonly ClosedProduct[][]): Promise<GivenResult[]> => {
    const made: GivenResult[] = [];
    for (const [f, request] of requests.entries()) {
      const litresPerYear = joint.request.feeds[f]!.weeklyLitres * WEEKS;
      const asked = { ...hands, factor, offers: false, litresPerYear };
      made.push(await givenFeed({ ...request, shelf: shelves[f]! }, asked));
    }
    return made;
  };
  const there = joint.pool.flatMap(({ product }, i) => (available[i]! > 0 ? [product] : []));
  const free = await plan(requests.map(() => there));
  if (!isShort(joint, available, free.map(asMade))) return free;
  return plan(requests.map((request, f) => sharedShelf(joint, available, settled, f, request)));
}

/** The feed, where there is one. */
export const asMade = (result: GivenResult | null): GivenMade | null => (result?.status === 'made' ? result : null);

/** g or mL of a candidate that the feeds use over the horizon. */
export function usedBy(joint: Joint, feeds: readonly (Pick<GivenMade, 'items'> | null)[], id: string): number {
  return feeds.reduce((sum, feed, f) => {
    const item = feed?.items.find((one) => one.id === id);
    return sum + joint.feeds[f]!.litres * (item?.gramsPerLitre ?? item?.millilitresPerLitre ?? 0);
  }, 0);
}

const isShort = (joint: Joint, available: readonly number[], feeds: readonly (GivenMade | null)[]): boolean =>
  joint.pool.some(({ product }, i) => usedBy(joint, feeds, product.id) > available[i]! * (1 + 1e-6));

/** What one feed may take of each stock: what it takes in the thriftiest mixes, and its part by litres of what those leave. */
function sharedShelf(
  joint: Joint,
  available: readonly number[],
  settled: Settled,
  f: number,
  { header }: FeedRequest,
): ClosedProduct[] {
  const batch = header.batchLitres ?? USUAL_BATCH;
  const all = joint.feeds.reduce((sum, feed) => sum + feed.litres, 0);
  return joint.pool.flatMap(({ product }, i) => {
    const stock = available[i]!;
    if (!(stock > 0)) return [];
    if (!Number.isFinite(stock)) return [product];
    const used = settled.amounts.reduce((sum, { products }, k) => sum + joint.feeds[k]!.litres * products[i]!, 0);
    const perLitre = settled.amounts[f]!.products[i]! + Math.max(0, stock - used) / all;
    return [product.with({ onHand: perLitre * batch })];
  });
}
