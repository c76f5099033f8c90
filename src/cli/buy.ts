import { buyJson, substitutesJson } from '../report/json/buy.js';
import { findProduct } from '../catalog/catalog.js';
import { purchase } from '../purchase/purchase.js';
import type { PlannedFeed } from '../purchase/types.js';
import { substitutes } from '../purchase/substitutes.js';
import { buySheet } from '../report/buy.js';
import { substitutesSheet } from '../report/substitutes.js';
import { buyWishes, plannedFeeds, refuseWishes } from './buy-wishes.js';
import { Collected } from './collect.js';
import type { Command, Given, Outcome } from './command.js';
import { type FeedInputs, feedInputs, feedRequests } from './feed-input.js';
import { FEED_OPTIONS } from './feed-options.js';
import { parseHorizon, USUAL_WEEKS } from '../desk/options/horizon.js';
import type { Io } from './io.js';
import { type Market, marketInput } from './market-input.js';
import { progress } from './progress.js';
import { shippedCatalog } from '../desk/shipped-catalog.js';

/** Which whole packs to buy so that every feed can be mixed, with the proof that no purchase costs less. */
export const buyCommand: Command = {
  name: 'buy',
  summary: 'what to buy so that every feed can be mixed, with its proof',
  examples: [
    {
      line: 'velamen buy --bench examples/what-to-buy',
      says: 'the cheapest packs for all feeds of a bench for half a year, and the next four ways',
    },
    {
      line: 'velamen buy --bench examples/what-to-buy --year --at-most 2 --ban urea',
      says: 'for a year, with at most two new products, none of them urea',
    },
    {
      line: 'velamen buy --bench examples/moss-without-ammonium --instead-of fernhollow-part-c',
      says: 'what could stand in for a product, and how much of it',
    },
  ],
  about: [
    'Takes what is on hand first and chooses whole packs for all feeds together, over the weeks to come, for the least money (packs, and water where it has a price). Rules, caps and label ceilings hold as in blend. The next ways to buy each do without a part of every way before them.',
    'A product of the shelf without on_hand counts as enough; 0 counts as used up. More of what stands on the shelf is no new product. Where no purchase does (exit code 3) it says which feed fails, and why.',
  ],
  options: {
    ...Object.fromEntries(Object.entries(FEED_OPTIONS).filter(([name]) => name !== 'volume')),
    weekly: { value: 'AMOUNT', says: 'how much of each feed is used in a week: "10 L" (default: as the bench says)' },
    weeks: { value: 'N', says: 'weeks to buy for (default: 26)' },
    months: { value: 'N', says: 'months to buy for, a twelfth of 52 weeks each' },
    year: { says: 'buy for a year of 52 weeks' },
    market: { value: 'FILE', says: 'what is for sale, in the columns of shelf.csv (default: the catalog)' },
    'at-most': { value: 'K', says: 'buy at most this many products that are not on the shelf' },
    budget: { value: 'MONEY', says: 'spend at most this on packs' },
    ban: { value: 'ID', says: 'do not buy this product', repeatable: true },
    need: { value: 'ID', says: 'buy at least one pack of this product', repeatable: true },
    seconds: { value: 'N', says: 'stop searching after this many seconds (default: 20)' },
    'instead-of': { value: 'ID', says: 'what could stand in for this product of the shelf' },
  },
  async run(given, io) {
    const catalog = shippedCatalog();
    const collected = new Collected();
    const inputs = await feedInputs(given, io, catalog, collected);
    const requests = feedRequests(inputs, catalog, collected);
    const market = await marketInput(given, io, catalog, collected);
    if (given.text('instead-of') !== undefined) return insteadOf(given, io, inputs, requests, market, collected);
    const said = { weeks: given.text('weeks'), months: given.text('months'), year: given.flag('year') };
    const weeks = collected.take(parseHorizon(said)) ?? USUAL_WEEKS;
    const feeds = plannedFeeds(given, inputs, requests, collected);
    const wishes = buyWishes(given, market, inputs.shelf.products, collected);
    const warnings = collected.settle();
    return bought(given, io, inputs, market, { feeds, weeks, ...wishes }, warnings);
  },
};

async function bought(
  given: Given,
  io: Io,
  inputs: FeedInputs,
  market: Market,
  wanted: { feeds: PlannedFeed[]; weeks: number; seconds: number },
  warnings: Outcome['warnings'],
): Promise<Outcome> {
  const line = progress(given, io);
  const started = io.now().getTime();
  const { seconds, ...wishes } = wanted;
  const result = await purchase(
    {
      ...wishes,
      shelf: inputs.shelf.products,
      market: market.products,
      marketName: market.name,
      currency: inputs.currency,
    },
    { secondsLeft: () => seconds - (io.now().getTime() - started) / 1000, onStep: line.step },
  ).finally(line.done);
  const told = { ...result, notes: [...result.notes, ...market.notes] };
  return { exit: told.status === 'made' ? 0 : 3, json: buyJson(told), sheets: [buySheet(told)], warnings };
}

async function insteadOf(
  given: Given,
  io: Io,
  inputs: FeedInputs,
  requests: PlannedFeed['request'][],
  market: Market,
  collected: Collected,
): Promise<Outcome> {
  refuseWishes(given, collected);
  const product = collected.take(
    findProduct(inputs.shelf.products, given.text('instead-of')!, { field: '--instead-of' }),
  );
  const warnings = collected.settle();
  const line = progress(given, io);
  line.step('what could stand in');
  const result = await substitutes({
    feeds: requests,
    product: product!,
    market: market.products,
    marketName: market.name,
    currency: inputs.currency,
  }).finally(line.done);
  const told = { ...result, notes: [...result.notes, ...market.notes] };
  return {
    exit: told.status === 'none' ? 3 : 0,
    json: substitutesJson(told),
    sheets: [substitutesSheet(told)],
    warnings,
  };
}
