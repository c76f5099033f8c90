import { findProduct } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import type { PlannedFeed } from '../purchase/types.js';
import type { FeedRequest } from '../feed/request.js';
import { parseMoney, parseNumberOfProducts, parseSeconds } from '../desk/options/number.js';
import { parseWeekly } from '../desk/options/volume.js';
import { problem } from '../problem.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import type { FeedInputs } from './feed-input.js';
import type { Market } from './market-input.js';

/** What the grower asks of a purchase. */
export interface Wishes {
  atMost?: number;
  budget?: number;
  ban: string[];
  need: string[];
  seconds: number;
}

const USUAL_SECONDS = 20;

/** Reads --at-most, --budget, --ban, --need and --seconds. */
export function buyWishes(given: Given, market: Market, shelf: readonly Product[], collected: Collected): Wishes {
  const atMost = collected.option(given, 'at-most', (text) => parseNumberOfProducts(text, { field: '--at-most' }));
  const budget = collected.option(given, 'budget', (text) => parseMoney(text, { field: '--budget' }));
  const seconds = collected.option(given, 'seconds', (text) => parseSeconds(text, { field: '--seconds' }));
  const known = [...market.all, ...shelf.filter((p) => !market.all.some((m) => m.id === p.id))];
  const ban = given.texts('ban').flatMap((id) => collected.take(findProduct(known, id, { field: '--ban' }))?.id ?? []);
  const need = given.texts('need').flatMap((id) => {
    const product = collected.take(findProduct(market.all, id, { field: '--need' }));
    if (product && market.products.every((sold) => sold.id !== product.id)) {
      const why = 'It has no pack or price, or is an acid, an alkali or a salt of cobalt or nickel.';
      collected.add(problem('not-for-sale', { field: '--need' }, `"${id}"`, 'a product that can be bought', why));
    }
    if (product && ban.includes(product.id)) {
      const found = `"${product.id}" under --need and --ban`;
      collected.add(
        problem('needed-and-banned', { field: '--need' }, found, 'one of the two', 'Leave one of them out.'),
      );
    }
    return product?.id ?? [];
  });
  return {
    ...(atMost === undefined ? {} : { atMost }),
    ...(budget === undefined ? {} : { budget }),
    ban,
    need,
    seconds: seconds ?? USUAL_SECONDS,
  };
}

/** The feeds with their litres a week. --weekly overrides the bench; a feed without either is refused. */
export function plannedFeeds(
  given: Given,
  inputs: FeedInputs,
  requests: readonly FeedRequest[],
  collected: Collected,
): PlannedFeed[] {
  const weekly = collected.option(given, 'weekly', (text) => parseWeekly(text, { field: '--weekly' }));
  return requests.flatMap((request) => {
    const spec = inputs.specs.find((s) => s.name === request.header.name);
    const weeklyLitres = weekly ?? spec?.weeklyLitres;
    if (weeklyLitres !== undefined) return [{ request, weeklyLitres }];
    if (given.text('weekly') === undefined) {
      collected.add(
        problem(
          'no-weekly',
          { ...spec?.where, field: request.header.name },
          'no litres a week',
          'how much of the feed is used in a week',
          'Add weekly: 10 L to the feed in bench.yaml, or say --weekly "10 L".',
        ),
      );
    }
    return [];
  });
}

/** Options of a purchase that mean nothing with --instead-of. */
export function refuseWishes(given: Given, collected: Collected): void {
  const wishes = ['weekly', 'weeks', 'months', 'year', 'at-most', 'budget', 'ban', 'need', 'seconds'];
  for (const name of given.named().filter((n) => wishes.includes(n))) {
    collected.add(
      problem(
        'not-with-instead-of',
        { field: `--${name}` },
        `--${name} with --instead-of`,
        'one question at a time',
        `Leave out --${name}: a substitute is judged by one litre.`,
      ),
    );
  }
}
