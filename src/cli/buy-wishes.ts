import { findProduct } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import type { PlannedFeed } from '../purchase/types.js';
import type { FeedRequest } from '../feed/request.js';
import { type Checked, problem, type Where } from '../problem.js';
import { parseAmount } from '../units/index.js';
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
  const atMost = collected.option(given, 'at-most', numberOfProducts);
  const budget = numberOption(given, 'budget', 0, 'money, 0 or more', collected);
  const seconds = numberOption(given, 'seconds', 0.1, 'seconds, 0.1 or more', collected);
  const known = [...market.all, ...shelf.filter((p) => !market.all.some((m) => m.id === p.id))];
  const ban = given.texts('ban').flatMap((id) => collected.take(findProduct(known, id, { field: '--ban' }))?.id ?? []);
  const need = given.texts('need').flatMap((id) => {
    const product = collected.take(findProduct(market.all, id, { field: '--need' }));
    if (product && !market.products.includes(product)) {
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
  const weekly = collected.option(given, 'weekly', (text) => litres(text, { field: '--weekly' }));
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

/** A whole number from 0 (refills only) to 9999. */
function numberOfProducts(text: string): Checked<number> {
  if (/^\s*\d{1,4}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  const wrong = problem(
    'number-of-products',
    { field: '--at-most' },
    `"${text}"`,
    'a whole number, 0 or more',
    'Write for example 2; 0 buys more of what is on the shelf only.',
  );
  return { ok: false, problems: [wrong] };
}

function litres(text: string, where: Where): Checked<number> {
  const read = parseAmount(text.trim(), { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && amount.millilitres > 0)
    return { ok: true, value: amount.millilitres / 1000, warnings: read.warnings };
  const wrong = problem('weekly-not-volume', where, `"${text}"`, 'a volume above zero', 'Write for example "10 L".');
  return { ok: false, problems: [wrong] };
}

function numberOption(
  given: Given,
  name: string,
  least: number,
  expected: string,
  collected: Collected,
): number | undefined {
  const text = given.text(name);
  if (text === undefined) return undefined;
  const value = /^\s*\d+(?:\.\d+)?\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= 1e6) return value;
  collected.add(
    problem('number-option', { field: `--${name}` }, `"${text}"`, expected, `Write for example --${name} 30.`),
  );
  return undefined;
}
