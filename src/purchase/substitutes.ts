import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Band } from '../programme/programme.js';
import { type Caution, cautionsFor } from '../can/cautions.js';
import { cheapest, closest, leastLargestMiss } from '../formulation/index.js';
import { aimsOf } from '../feed/near.js';
import { nearestMix } from '../why/nearest.js';
import { missesOf, readOut } from '../feed/readout.js';
import { type FeedRequest, withoutEcCap } from '../feed/request.js';
import type { Mix } from '../feed/results.js';
import type {
  FeedSubstitutes,
  Judged,
  Substitute,
  SubstitutesRequest,
  SubstitutesResult,
} from './substitutes-types.js';

/** Candidates beyond those listed that are tried in full: the first look sees the largest miss only, not the sum. */
const TRIED = 8;

/**
 * The nearest substitutes for a product, judged by the feeds they make possible: in its place each product of the market is
 * tried, all others may be dosed anew, and what counts is how near the can comes to what it held before.
 */
export async function substitutes(request: SubstitutesRequest): Promise<SubstitutesResult> {
  const feeds: FeedSubstitutes[] = [];
  for (const feed of request.feeds) feeds.push(await ofFeed(feed, request));
  const { id, name } = request.product;
  return {
    status: statusOf(feeds),
    product: { id, name },
    currency: request.currency,
    market: { name: request.marketName, products: request.market.length },
    feeds,
    notes: [],
    cautions: cautionsOf(request, feeds),
  };
}

function statusOf(feeds: readonly FeedSubstitutes[]): SubstitutesResult['status'] {
  if (feeds.some((feed) => feed.status === 'compared' && feed.substitutes.length > 0)) return 'found';
  return feeds.some(({ status }) => status === 'compared') || feeds.every(({ status }) => status === 'no feed')
    ? 'none'
    : 'not used';
}

async function ofFeed(
  request: FeedRequest,
  { product, market, most = 5 }: SubstitutesRequest,
): Promise<FeedSubstitutes> {
  const feed = request.header;
  const original = await originalOf(request);
  if (original === null) return { status: 'no feed', feed };
  const item = original.mix.items.find((line) => line.id === product.id);
  const dose = item?.gramsPerLitre ?? item?.millilitresPerLitre ?? 0;
  const told = {
    dose,
    unit: product.composition.per,
    costPerLitre: original.mix.costPerLitre,
    keepsLimits: original.keepsLimits,
    broken: missesOf(original.mix).length,
  };
  if (dose === 0) return { status: 'not used', feed, original: told };
  const rest = request.shelf.filter((p) => p.id !== product.id);
  const aimed = towards(original.mix, request);
  const owned = new Set(request.shelf.map((p) => p.id));
  const candidates = market.filter((p) => !owned.has(p.id) && sharesWith(p, product));
  const tried: { product: ClosedProduct; near: number; holds: boolean }[] = [];
  for (const candidate of candidates) {
    const near = await nearness({ ...aimed, shelf: [...rest, candidate] }, original.keepsLimits);
    if (near) tried.push({ product: candidate, ...near });
  }
  tried.sort((a, b) => Number(b.holds) - Number(a.holds) || a.near - b.near || (a.product.id < b.product.id ? -1 : 1));
  const full: Substitute[] = [];
  for (const { product: candidate } of tried.slice(0, most + TRIED)) {
    const mix = await closestMix({ ...aimed, shelf: [...rest, candidate] }, original.keepsLimits);
    if (mix) full.push(...substituteOf(candidate, mix, dose, aimed));
  }
  const bare = await closestMix({ ...aimed, shelf: rest }, original.keepsLimits);
  const leftOut = bare && judgedOf(bare, aimed);
  const better = full.filter((line) => leftOut === null || isBetter(line, leftOut, original.keepsLimits));
  const keeps = (line: Judged): number => (original.keepsLimits && line.holds ? 1 : 0);
  better.sort(
    (a, b) =>
      keeps(b) - keeps(a) || a.largestMiss - b.largestMiss || a.sumOfMisses - b.sumOfMisses || (a.id < b.id ? -1 : 1),
  );
  return { status: 'compared', feed, original: told, leftOut, substitutes: better.slice(0, most) };
}

/** One part in twenty of what nothing in its place would miss is no substitute yet. */
function isBetter(line: Judged, leftOut: Judged, keep: boolean): boolean {
  return (keep && line.holds && !leftOut.holds) || line.largestMiss < 0.95 * leftOut.largestMiss;
}

/** The cheapest feed of the shelf as it is, or the nearest where none keeps every limit. */
async function originalOf(request: FeedRequest): Promise<{ mix: Mix; keepsLimits: boolean } | null> {
  const answer = await cheapest(request);
  if (answer.answer === 'found') return { mix: readOut(answer.amounts, request), keepsLimits: true };
  const mix = await nearestMix(request);
  return mix && { mix, keepsLimits: false };
}

/** The same request, aiming at what the original feed holds of every element that the programme asks for. */
function towards(mix: Mix, request: FeedRequest): FeedRequest {
  const bands: Partial<Record<Nutrient, Band>> = {};
  for (const { element, mgPerLitre } of mix.elements) {
    const band = request.programme.bands[element];
    if (!band) continue;
    const { aim: _, ...ends } = band;
    const wanted = band.aim !== undefined || (band.min ?? 0) > 0;
    bands[element] = wanted && mgPerLitre > 0 ? { ...ends, aim: mgPerLitre } : ends;
  }
  return { ...request, programme: { ...request.programme, bands } };
}

/** Holds some nutrient that the other holds, more than as a trace beside it. */
function sharesWith(product: ClosedProduct, other: ClosedProduct): boolean {
  const held = Object.entries(other.composition.content).filter(([, content]) => content.low > 0);
  return held.some(([n]) => product.composition.content[n as Nutrient].low > 0);
}

/**
 * Least largest miss with every limit kept; where that cannot be, or where the original kept them not either, with no limit but
 * stock and label ceilings.
 */
async function nearness(request: FeedRequest, keep: boolean): Promise<{ near: number; holds: boolean } | null> {
  const kept = keep ? await leastLargestMiss(request) : null;
  if (kept !== null) return { near: kept, holds: true };
  const free = await leastLargestMiss(unlimited(request));
  return free === null ? null : { near: free, holds: false };
}

/** Without bands, rules and cap; aims, stock and label ceilings stay. */
function unlimited(request: FeedRequest): FeedRequest {
  const free = withoutEcCap(request);
  const bands = Object.fromEntries(
    Object.entries(request.programme.bands).map(([n, { aim }]) => [n, aim === undefined ? {} : { aim }]),
  );
  return { ...free, rules: [], programme: { ...free.programme, bands, rules: [] } };
}

/** The mix that comes closest, read against the real limits. */
async function closestMix(request: FeedRequest, keep: boolean): Promise<Mix | null> {
  const kept = keep ? await closest(request) : null;
  if (kept?.answer === 'found') return readOut(kept.amounts, request);
  const free = await closest(unlimited(request));
  return free.answer === 'found' ? readOut(free.amounts, request) : null;
}

function judgedOf(mix: Mix, aimed: FeedRequest): Judged {
  const misses = aimsOf(aimed.programme).map(([n, aim]) => {
    const line = mix.elements.find(({ element }) => element === n);
    return Math.abs((line?.mgPerLitre ?? 0) - aim) / aim;
  });
  const broken = missesOf(mix);
  return {
    largestMiss: tidy(Math.max(0, ...misses)),
    sumOfMisses: tidy(misses.reduce((sum, miss) => sum + miss, 0)),
    holds: broken.length === 0,
    broken,
  };
}

/** What the certificate's own tolerance leaves is no miss. */
const tidy = (miss: number): number => (miss < 1e-6 ? 0 : miss);

function substituteOf(product: ClosedProduct, mix: Mix, original: number, aimed: FeedRequest): Substitute[] {
  const item = mix.items.find((line) => line.id === product.id);
  const dose = item?.gramsPerLitre ?? item?.millilitresPerLitre ?? 0;
  // a mix that does without it is the feed with nothing in the product's place
  if (dose === 0 || product.pack === undefined) return [];
  return [
    {
      id: product.id,
      name: product.name,
      dose,
      unit: product.composition.per,
      perOriginal: original > 0 ? dose / original : null,
      costPerLitre: mix.costPerLitre,
      pack: product.pack,
      price: product.price ?? null,
      ...judgedOf(mix, aimed),
    },
  ];
}

function cautionsOf(request: SubstitutesRequest, feeds: readonly FeedSubstitutes[]): Caution[] {
  const listed = new Set(
    feeds.flatMap((feed) => (feed.status === 'compared' ? feed.substitutes.map((s) => s.id) : [])),
  );
  if (listed.size === 0) return [];
  const products = request.market.filter((p) => listed.has(p.id));
  return cautionsFor(products, ...feeds.map(({ feed }) => feed));
}
