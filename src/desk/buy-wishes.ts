import { atDoor } from '../door.js';
import type { FeedRequest } from '../feed/request.js';
import { type Problem, problem, type Where } from '../problem.js';
import type { PlannedFeed, PurchaseRequest } from '../purchase/types.js';
import type { Collected } from './collected.js';
import type { Market } from './market.js';
import type { OpenBench } from './opened.js';
import { dashed } from './options/option.js';
import { readWish } from './options/read-wish.js';
import { made, type Wishes } from './wishes.js';

/** What is asked of a purchase, and how much work or time the search may take. */
export function purchaseWishes(
  wishes: Wishes,
  market: Market,
  { shelf, currency }: OpenBench,
  collected: Collected,
): Pick<PurchaseRequest, 'atMost' | 'budget' | 'ban' | 'need'> & { effort?: number; seconds?: number } {
  const atMost = collected.wish(wishes, 'atMost');
  const budget = collected.wish(wishes, 'budget', { currency });
  const effort = collected.wish(wishes, 'effort');
  const seconds = collected.wish(wishes, 'seconds');
  const known = [...market.all, ...shelf.products.filter((p) => !market.all.some((m) => m.id === p.id))];
  const ban = collected.wishes(wishes, 'ban', { among: known }).map(({ id }) => id);
  return {
    ...(atMost === undefined ? {} : { atMost }),
    ...(budget === undefined ? {} : { budget }),
    ban,
    need: (wishes.need ?? []).flatMap((id) => neededId(id, market, ban, collected) ?? []),
    ...(effort === undefined ? {} : { effort }),
    ...(seconds === undefined ? {} : { seconds }),
  };
}

function neededId(id: string, market: Market, ban: readonly string[], collected: Collected): string | undefined {
  const product = collected.take(readWish('need', id, { among: market.all }));
  if (product && market.products.every((sold) => sold.id !== product.id)) {
    const why = 'It has no pack or price, or is an acid, an alkali or a salt of cobalt or nickel.';
    collected.add(problem('not-for-sale', { field: '--need' }, `"${id}"`, 'a product that can be bought', why));
  }
  if (product && ban.includes(product.id)) {
    const found = atDoor({
      typed: `"${product.id}" under --need and --ban`,
      page: `"${product.id}" wanted and not wanted`,
    });
    collected.add(problem('needed-and-banned', { field: '--need' }, found, 'one of the two', 'Leave one of them out.'));
  }
  return product?.id;
}

/** The feeds with their litres a week. `weekly` goes before the bench; a feed without either is refused. */
export function plannedFeeds(
  wishes: Wishes,
  open: OpenBench,
  requests: readonly FeedRequest[],
  collected: Collected,
): PlannedFeed[] {
  const weekly = collected.wish(wishes, 'weekly');
  return requests.flatMap((request) => {
    const spec = open.feeds.find((s) => s.name === request.header.name);
    const weeklyLitres = weekly ?? spec?.weeklyLitres;
    if (weeklyLitres !== undefined) return [{ request, weeklyLitres }];
    if (wishes.weekly === undefined) collected.add(noWeekly(request.header.name, spec?.where));
    return [];
  });
}

/** A feed of which nobody says how much is used. */
export const noWeekly = (feed: string, where: Where = {}): Problem =>
  problem(
    'no-weekly',
    { ...where, field: feed },
    'no litres a week',
    'how much of the feed is used in a week',
    atDoor({
      typed: 'Add weekly: 10 L to the feed in bench.yaml, or say --weekly "10 L".',
      page: 'Say in Plants how much of the feed is used in a week, such as 10 L.',
    }),
  );

/** Wishes of a purchase mean nothing where a product is to be replaced. */
export function refusePurchaseWishes(wishes: Wishes, collected: Collected): void {
  const idle = made(wishes, [
    'near',
    'sure',
    'weekly',
    'weeks',
    'months',
    'year',
    'atMost',
    'budget',
    'ban',
    'need',
    'effort',
    'seconds',
    'one',
  ]);
  for (const option of idle.map(dashed)) {
    collected.add(
      problem(
        'not-with-instead-of',
        { field: option },
        atDoor({ typed: `${option} with --instead-of`, page: `${option} in place of a product` }),
        'one question at a time',
        `Leave out ${option}: a substitute is judged by one litre.`,
      ),
    );
  }
}
