import { settleUnderCaps } from './ec.js';
import type { Joint } from './program.js';
import type { Found } from './search.js';
import { asMade, plannedFeeds, usedBy } from './planned.js';
import { availableWith, type Settled } from './settle.js';
import type { OptionFeed, Pack, StockLine, Unproved } from './types.js';
import { justMetBy, readOut } from '../feed/readout.js';
import type { GivenResult } from '../blend/given-types.js';
import { missesByGrade } from '../blend/handed.js';
import { type GradedMiss, graded } from '../blend/nearest-doses.js';
import type { FeedRequest } from '../feed/request.js';

/** A year of 52 weeks. */
const WEEKS = 52;
const WEEKS_IN_MONTH = WEEKS / 12;
/** A limit with less than this share of its bound to spare is only just met. */
const JUST = 0.02;

/**
 * A found purchase read out: packs, each feed as it will be given, what becomes of every stock.
 * @param requests the feeds as they were asked for, not yet held near
 * @param factor times the usual widths that the feeds are to be given within
 */
export async function optionOf(
  joint: Joint,
  found: Found,
  requests: readonly FeedRequest[],
  factor: number,
): Promise<Unproved> {
  const { counts } = found;
  const packs = packsOf(joint, counts);
  const spend = packs.reduce((sum, pack) => sum + pack.count * pack.price, 0);
  const available = availableWith(joint, counts);
  const waterBound = Math.max(0, found.objective - spend);
  // an answer that keeps a stock within the certificate's 1e-6 is one, though not a grain is left
  const done =
    (await settleUnderCaps(joint, available, waterBound)) ??
    (await settleUnderCaps(
      joint,
      available.map((stock) => stock * (1 + 1e-6)),
      waterBound,
    ));
  if (done === null) throw new Error('a purchase that was found to do could not be mixed');
  const { settled, over } = done;
  const planned = await plannedFeeds(joint, requests, available, settled, factor);
  const feeds = feedsOf(joint, settled, planned, requests);
  const waterCost = feeds.reduce(
    (sum, feed) => sum + feed.litres * feed.waters.reduce((s, w) => s + w.costPerLitre, 0),
    0,
  );
  const option = {
    packs,
    spend,
    waterCost,
    total: spend + waterCost,
    feeds,
    laterYears: laterYearsOf(joint, feeds),
    stock: stockLines(
      joint,
      counts,
      joint.pool.map(({ product }) => usedBy(joint, feeds, product.id)),
    ),
  };
  return { option, overCap: over };
}

/** The packs that a search counted. */
export function packsOf(joint: Joint, counts: readonly number[]): Pack[] {
  return joint.pool.flatMap(({ product, offer, isOnShelf }, i): Pack[] =>
    counts[i]! > 0
      ? [
          {
            id: product.id,
            name: product.name,
            count: counts[i]!,
            price: offer!.price,
            pack: offer!.pack,
            unit: product.composition.per,
            isNew: !isOnShelf,
            isInvented: product.evidence === 'invented',
          },
        ]
      : [],
  );
}

/** Each feed as it is given; where nobody says what it is measured with, or that gives none, the thriftiest mix. */
function feedsOf(
  joint: Joint,
  settled: Settled,
  planned: readonly (GivenResult | null)[],
  requests: readonly FeedRequest[],
): OptionFeed[] {
  const shelf = joint.pool.map((candidate) => candidate.product);
  return joint.request.feeds.map(({ request }, f) => {
    const result = planned[f] ?? null;
    const made = asMade(result);
    const mix = made === null ? readOut(settled.amounts[f]!, { ...request, shelf }) : made.given.plan.mix;
    return {
      ...mix,
      feed: request.header,
      litres: joint.feeds[f]!.litres,
      justMet: justMetBy(mix, JUST),
      given: made?.given ?? null,
      missed: result === null ? [] : missedBy(result, requests[f]!),
      isLost: result !== null && made === null,
    };
  });
}

/** What doses miss of the feed as it was asked for, but for conventions; of a feed that the kit does not give, the nearest doses. */
function missedBy(result: GivenResult, request: FeedRequest): GradedMiss[] {
  if (result.status !== 'made') return result.given.misses.filter(({ grade }) => grade !== 'custom');
  const { plan } = result.given;
  const mix = readOut(plan.amounts, { ...request, shelf: plan.request.shelf });
  return graded(missesByGrade(mix, request).graver, request);
}

/** What becomes of each stock. @param used g or mL of each candidate over the horizon */
export function stockLines(joint: Joint, counts: readonly number[], used: readonly number[]): StockLine[] {
  return joint.pool.flatMap(({ product, onHand, offer }, i): StockLine[] => {
    const bought = (offer?.pack ?? 0) * counts[i]!;
    const perWeek = used[i]! / joint.request.weeks;
    if (bought === 0 && !(perWeek > 1e-12)) return [];
    const there = onHand === null ? null : onHand + bought;
    return [
      {
        id: product.id,
        name: product.name,
        unit: product.composition.per,
        onHand,
        bought,
        used: used[i]!,
        left: there === null ? null : Math.max(0, there - used[i]!),
        months: there === null || !(perWeek > 1e-12) ? null : there / perWeek / WEEKS_IN_MONTH,
      },
    ];
  });
}

/** Money a year for what the feeds use; null where a price is unknown. */
function laterYearsOf({ request }: Joint, feeds: readonly OptionFeed[]): number | null {
  if (feeds.some(({ items }) => items.some(({ costPerLitre }) => costPerLitre === null))) return null;
  return feeds.reduce((sum, { costPerLitre }, f) => sum + WEEKS * request.feeds[f]!.weeklyLitres * costPerLitre, 0);
}
