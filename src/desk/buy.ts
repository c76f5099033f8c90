import type { Catalog } from '../catalog/catalog.js';
import { purchase, unfinished } from '../purchase/purchase.js';
import { substitutes } from '../purchase/substitutes.js';
import type { SubstitutesResult } from '../purchase/substitutes-types.js';
import { keepsLimits, type PurchaseResult } from '../purchase/types.js';
import { onePurchase } from '../purchase/one/one-purchase.js';
import type { OnePurchaseResult } from '../purchase/one/one-types.js';
import type { Answer } from './answer.js';
import type { BenchFiles } from './bench-files.js';
import { refusePurchaseWishes } from './buy-wishes.js';
import { purchaseAsked, type Search } from './buying.js';
import { collecting } from './collecting.js';
import { pricesInOtherCurrencies } from './currencies.js';
import { feedRequests } from './feed-requests.js';
import { closeMarket, marketOf } from './market.js';
import { keepsAll, oneOf } from './one.js';
import { opened } from './opened.js';
import { readWish } from './options/read-wish.js';
import { shippedCatalog } from './shipped-catalog.js';
import type { Wishes } from './wishes.js';

export type { Search } from './buying.js';

/**
 * The whole packs to buy so that every feed that is meant can be mixed over the weeks to come, for the least money, with the proof that no
 * purchase costs less, and other ways to buy. `met` is false where no purchase does; a search that was not finished says so instead.
 * @throws Refusal with every problem of bench, shelf, market and wishes
 */
export async function buyFor(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
  search: Search = {},
): Promise<Answer<PurchaseResult>> {
  const { request, options, market, labels, warnings } = await purchaseAsked(files, wishes, catalog, search);
  const told = { name: market.name, products: market.products.length };
  const result = labels.stopped
    ? { ...unfinished(request, labels.stopped), market: told }
    : await purchase(request, options);
  return {
    met: result.status === 'made' ? keepsLimits(result.options[0]) : result.status === 'unfinished',
    result: { ...result, notes: [...result.notes, ...market.notes] },
    warnings,
  };
}

/**
 * The whole packs to buy so that the fewest mixes, diluted with water for each, serve every feed that is meant, for the least money. `met` is
 * false where no purchase does, or a can of its mixes misses a limit that hurts or that plants need.
 * @throws Refusal with every problem of bench, shelf, market and wishes
 */
export async function buyOneFor(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
  search: Search = {},
): Promise<Answer<OnePurchaseResult>> {
  const { request, options, market, labels, open, wanted, warnings } = await purchaseAsked(
    files,
    wishes,
    catalog,
    search,
  );
  const told = { name: market.name, products: market.products.length };
  const result = labels.stopped
    ? { ...unfinished(request, labels.stopped), market: told }
    : await onePurchase(request, (requests) => oneOf(requests, open, wanted), options);
  return {
    met: result.status === 'unfinished' || (result.status === 'made' && keepsAll(result.one)),
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
