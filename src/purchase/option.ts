import { settleUnderCaps } from './ec.js';
import { pricePerUnit } from '../feed/price.js';
import type { Joint } from './program.js';
import type { Found } from './search.js';
import { availableWith, closestPossible, type Settled } from './settle.js';
import type { OptionFeed, Pack, StockLine, Unproved } from './types.js';
import { justMetBy, readOut } from '../feed/readout.js';
import type { Mix } from '../feed/results.js';

/** A year of 52 weeks. */
const WEEKS_IN_MONTH = 52 / 12;
/** A limit with less than this share of its bound to spare is only just met. */
const JUST = 0.02;

/** A found purchase read out: packs, each feed's thriftiest blend from them, what becomes of every stock. */
export async function optionOf(joint: Joint, found: Found): Promise<Unproved> {
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
  const feeds = feedsOf(joint, settled);
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
    stock: stockOf(joint, counts, settled),
    closest: await closestPossible(joint, available),
  };
  return { option, overCap: over };
}

function packsOf(joint: Joint, counts: readonly number[]): Pack[] {
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
          },
        ]
      : [],
  );
}

function feedsOf(joint: Joint, settled: Settled): OptionFeed[] {
  const shelf = joint.pool.map((candidate) => candidate.product);
  return joint.request.feeds.map(({ request }, f) => {
    const mix = readOut(settled.amounts[f]!, { ...request, shelf });
    return {
      ...mix,
      feed: request.header,
      litres: joint.feeds[f]!.litres,
      justMet: justMetBy(mix, JUST),
      largestMiss: largestMissOf(mix),
    };
  });
}

function stockOf(joint: Joint, counts: readonly number[], settled: Settled): StockLine[] {
  const weekly = joint.request.feeds.map((feed) => feed.weeklyLitres);
  return joint.pool.flatMap(({ product, onHand, offer }, i): StockLine[] => {
    const bought = (offer?.pack ?? 0) * counts[i]!;
    const perWeek = settled.amounts.reduce((sum, amounts, f) => sum + weekly[f]! * amounts.products[i]!, 0);
    if (bought === 0 && !(perWeek > 1e-12)) return [];
    const used = perWeek * joint.request.weeks;
    const there = onHand === null ? null : onHand + bought;
    return [
      {
        id: product.id,
        name: product.name,
        unit: product.composition.per,
        onHand,
        bought,
        used,
        left: there === null ? null : Math.max(0, there - used),
        months: there === null || !(perWeek > 1e-12) ? null : there / perWeek / WEEKS_IN_MONTH,
      },
    ];
  });
}

/** Largest distance from an aim as a share of the aim; 0 without aims. */
function largestMissOf(mix: Mix): number {
  return Math.max(
    0,
    ...mix.elements.flatMap(({ mgPerLitre, aim }) =>
      aim !== null && aim > 0 ? [Math.abs(mgPerLitre - aim) / aim] : [],
    ),
  );
}

/** Value of what goes into an average litre of all feeds. */
function valuePerLitre(feeds: readonly Pick<OptionFeed, 'litres' | 'costPerLitre'>[]): number {
  const litres = feeds.reduce((sum, feed) => sum + feed.litres, 0);
  return feeds.reduce((sum, feed) => sum + feed.litres * feed.costPerLitre, 0) / litres;
}

/** The same for blends that are settled but not read out. */
export function settledValue(joint: Joint, settled: Settled): number {
  const prices = joint.pool.map(({ product }) => pricePerUnit(product) ?? 0);
  const feeds = settled.amounts.map((amounts, f) => ({
    litres: joint.feeds[f]!.litres,
    costPerLitre:
      amounts.products.reduce((sum, x, i) => sum + x * prices[i]!, 0) +
      amounts.waters.reduce((sum, x, i) => sum + x * joint.request.feeds[f]!.request.waters[i]!.pricePerLitre, 0),
  }));
  return valuePerLitre(feeds);
}
