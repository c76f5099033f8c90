import type { Catalog } from '../catalog/catalog.js';
import { problem } from '../problem.js';
import { purchase, unfinished } from '../purchase/purchase.js';
import { substitutes } from '../purchase/substitutes.js';
import type { SubstitutesResult } from '../purchase/substitutes-types.js';
import type { PlannedFeed, PurchaseResult, PurchaseStep } from '../purchase/types.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { plannedFeeds, purchaseWishes, refusePurchaseWishes } from './buy-wishes.js';
import { collecting } from './collecting.js';
import { CATALOG_CURRENCY, pricesInOtherCurrencies } from './currencies.js';
import { feedRequests } from './feed-requests.js';
import { feedWishes } from './feed-wishes.js';
import { closeMarket, marketOf } from './market.js';
import { opened } from './opened.js';
import { readWish } from './options/read-wish.js';
import { parseHorizon, USUAL_WEEKS } from './options/horizon.js';
import { productsKnown } from './recipe-products.js';
import { shippedCatalog } from './shipped-catalog.js';
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

/**
 * The whole packs to buy so that every feed that is meant can be mixed over the weeks to come, for the least money, with the proof that no
 * purchase costs less, and other ways to buy. `met` is false where no purchase does; a search that was not finished says so instead.
 * @throws Refusal with every problem of bench, shelf, market and wishes
 */
export async function buyFor(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
  { now, onStep, beside = true }: Search = {},
): Promise<Answer<PurchaseResult>> {
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
        'Name what is for sale where you are with --market FILE, or leave --budget out.',
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
  const told = { name: market.name, products: market.products.length };
  const result = labels.stopped
    ? { ...unfinished(request, labels.stopped), market: told }
    : await purchase(request, options);
  return {
    met: result.status !== 'cannot' && result.status !== 'open',
    result: { ...result, notes: [...result.notes, ...market.notes] },
    warnings,
  };
}

/**
 * What could stand in for the product `insteadOf` of the shelf, for each feed that is meant, and how much of it. `met` is false where
 * nothing could.
 * @throws Refusal with every problem of bench, shelf, market and wishes
 */
export async function substitutesFor(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
  { onStep }: Pick<Search, 'onStep'> = {},
): Promise<Answer<SubstitutesResult>> {
  const collected = collecting(files, wishes);
  const open = await opened(files, wishes, catalog, collected);
  const feeds = feedRequests(open, collected);
  const market = marketOf(files, catalog, open, collected);
  collected.add(...pricesInOtherCurrencies(market.all, open.currency));
  refusePurchaseWishes(wishes, collected);
  const product = collected.take(readWish('insteadOf', wishes.insteadOf ?? '', { among: open.shelf.products }));
  const warnings = collected.settle();
  onStep?.({ kind: 'substitutes' });
  const result = await substitutes({
    feeds,
    product: product!,
    market: (await closeMarket(market)).closed.map((one) => (market.isPriced ? one : one.with({ price: undefined }))),
    marketName: market.name,
    currency: open.currency,
  });
  return { met: result.status !== 'none', result: { ...result, notes: [...result.notes, ...market.notes] }, warnings };
}

/** Where packs are counted, what water costs is no pack. */
const freeWater = ({ request, ...planned }: PlannedFeed): PlannedFeed => ({
  ...planned,
  request: { ...request, waters: request.waters.map((water) => ({ ...water, pricePerLitre: 0 })) },
});
