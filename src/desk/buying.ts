import { atDoor } from '../door.js';
import type { Catalog } from '../catalog/catalog.js';
import { type Problem, problem } from '../problem.js';
import type { PlannedFeed, PurchaseOptions, PurchaseRequest, PurchaseStep } from '../purchase/types.js';
import type { BenchFiles } from './bench-files.js';
import { plannedFeeds, purchaseWishes } from './buy-wishes.js';
import { collecting } from './collecting.js';
import { CATALOG_CURRENCY, pricesInOtherCurrencies } from './currencies.js';
import { feedRequests } from './feed-requests.js';
import { type FeedWishes, feedWishes } from './feed-wishes.js';
import { closeMarket, type Market, marketOf } from './market.js';
import { type OpenBench, opened } from './opened.js';
import { parseHorizon, USUAL_WEEKS } from './options/horizon.js';
import { productsKnown } from './recipe-products.js';
import type { Wishes } from './wishes.js';

const PACKS = 'packs';

/** What a search that may take long is told, and tells. The desk has no clock: without one `seconds` is refused. Work is limited without. */
export interface Search {
  /** Milliseconds, on any clock that only runs forward. */
  now?: () => number;
  /** What is being sought. */
  onStep?: (step: PurchaseStep) => void;
  /** False: what stands beside the options is not worked out. */
  beside?: boolean;
}

/** A purchase as it is asked for. */
export interface PurchaseAsked {
  request: PurchaseRequest;
  options: PurchaseOptions;
  market: Market;
  labels: Awaited<ReturnType<typeof closeMarket>>;
  open: OpenBench;
  wanted: FeedWishes;
  warnings: Problem[];
}

/**
 * Reads what a purchase is asked for, with the labels of the market closed.
 * @throws Refusal with every problem of bench, shelf, market and wishes
 */
export async function purchaseAsked(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  { now, onStep, beside = true }: Search,
): Promise<PurchaseAsked> {
  const started = now?.() ?? 0;
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const requests = feedRequests(open, collected);
  const market = marketOf(files, catalog, open, collected);
  collected.add(...pricesInOtherCurrencies(market.all, open.currency));
  const weeks = collected.take(parseHorizon({ ...wishes, year: wishes.year === true })) ?? USUAL_WEEKS;
  const feeds = plannedFeeds(wishes, open, requests, collected);
  const wanted = feedWishes(wishes, collected);
  const { effort, seconds, ...asked } = purchaseWishes(wishes, market, open, collected);
  if (!market.isPriced && wishes.budget !== undefined)
    collected.add(
      problem(
        'budget-without-prices',
        { field: '--budget' },
        `a budget in ${open.currency} with prices in ${CATALOG_CURRENCY}`,
        `prices in ${open.currency}`,
        atDoor({
          typed: 'Name what is for sale where you are with --market FILE, or leave --budget out.',
          page: 'Leave the money out: then packs are counted instead.',
        }),
      ),
    );
  if (wishes.seconds !== undefined && now === undefined)
    collected.add(
      problem(
        'no-clock',
        { field: '--seconds' },
        'a time limit and no clock',
        'a clock to go by',
        'Hand in { now: () => performance.now() }, or leave seconds out.',
      ),
    );
  const warnings = collected.settle();
  const options = {
    beside,
    ...(effort === undefined ? {} : { effort }),
    ...(now === undefined || seconds === undefined ? {} : { secondsLeft: () => seconds - (now() - started) / 1000 }),
    ...(onStep === undefined ? {} : { onStep }),
  };
  const labels = await closeMarket(market, options);
  const request = {
    ...asked,
    feeds: market.isPriced ? feeds : feeds.map(freeWater),
    weeks,
    shelf: open.shelf.products,
    market: labels.closed,
    marketName: market.name,
    // where prices are left out, each pack counts one
    currency: market.isPriced ? open.currency : PACKS,
    isPriced: market.isPriced,
    ...(wanted.factor === undefined ? {} : { factor: wanted.factor }),
    hands: {
      kit: open.kit,
      known: productsKnown(catalog),
      solubility: catalog.solubility,
      ...(wanted.sure === undefined ? {} : { sure: wanted.sure }),
    },
  };
  return { request, options, market, labels, open, wanted, warnings };
}

/** Where packs are counted, what water costs is no pack. */
const freeWater = ({ request, ...planned }: PlannedFeed): PlannedFeed => ({
  ...planned,
  request: { ...request, waters: request.waters.map((water) => ({ ...water, pricePerLitre: 0 })) },
});
