import { closeShelf } from '../label/close.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Bench, FeedSpec, Pen } from '../catalog/bench-types.js';
import { type Catalog, findWater } from '../catalog/catalog.js';
import type { Water } from '../label/product.js';
import type { FeedRequest } from '../feed/request.js';
import { nearest, problem, warning } from '../problem.js';
import { parseRules } from '../programme/parse-rule.js';
import { resolveProgramme } from '../programme/resolve.js';
import { atStrength, strengthText } from '../programme/strength.js';
import type { PenScale } from '../report/mix.js';
import { type BenchInput, benchInput } from './bench-input.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import type { Io } from './io.js';
import { type FeedWords, readFeedWords } from '../desk/options/feed-words.js';
import { parseTemperature } from '../desk/options/temperature.js';
import { type Shelf, shelfInput } from './shelf-input.js';

/** Everything a command on feeds works from. */
export interface FeedInputs {
  bench: Bench | null;
  shelf: Shelf<ClosedProduct>;
  waters: Water[];
  currency: string;
  pen: PenScale | null;
  specs: FeedSpec[];
}

/** What a command cannot do without. */
export interface Needs {
  feed: boolean;
  shelf: boolean;
}

/** Reads bench, options and shelf together; every problem of all of them is collected. Here the labels of the shelf are closed. */
export async function feedInputs(
  given: Given,
  io: Io,
  catalog: Catalog,
  collected: Collected,
  needs: Needs = { feed: true, shelf: true },
): Promise<FeedInputs> {
  const from = benchInput(given, io, catalog, collected);
  const { name, products } = shelfInput(given, io, catalog, from, collected, needs.shelf);
  const asked = FEED_WORDS.some((name) => given.texts(name).length > 0);
  const base = chosenFeeds(given, from, collected) ?? (asked || needs.feed ? null : []);
  const { bench: options, problems } = readFeedWords(feedWords(given), base, catalog);
  collected.add(...problems);
  return {
    bench: from.bench,
    shelf: { name, products: await closeShelf(products) },
    waters:
      options.waters ??
      from.bench?.waters ??
      (from.faulty || given.texts('water').length > 0 ? [] : rainByDefault(catalog, collected)),
    currency: given.text('currency') ?? from.bench?.currency ?? '',
    pen: from.bench ? penScale(from.bench.pen) : null,
    specs: options.feeds,
  };
}

/** What the options say of a feed. */
function feedWords(given: Given): FeedWords {
  const text = (name: string): string | undefined => (given.takes(name) ? given.text(name) : undefined);
  return {
    plants: text('plants'),
    medium: text('medium'),
    phase: text('phase'),
    strength: text('strength'),
    mix: text('volume'),
    water: given.texts('water'),
    rules: given.texts('rule'),
    nh4: text('nh4'),
  };
}

/** The requests of all feeds. `goal` and `atMost` hold for each. */
export function feedRequests(
  inputs: FeedInputs,
  catalog: Catalog,
  collected: Collected,
  goal: FeedRequest['goal'] = 'cheapest',
  atMost?: number,
): FeedRequest[] {
  return inputs.specs.flatMap((spec) => {
    const full = collected.take(resolveProgramme(catalog, spec.plants, spec.medium, spec.phase, spec.where));
    const scaled = full && collected.take(atStrength(full, spec.strength, spec.where));
    const own = parseRules(spec.rules, 'you', spec.where);
    // how a rule was read has been told at its own line
    if (!own.ok) collected.add(...own.problems);
    if (!scaled || !own.ok) return [];
    return [
      {
        header: {
          name: spec.name,
          plants: spec.plants,
          medium: spec.medium,
          phase: spec.phase,
          strength: strengthText(spec.strength),
          strengthFactor: scaled.factor,
          batchLitres: spec.batchLitres ?? null,
          currency: inputs.currency,
        },
        programme: scaled.programme,
        rules: own.value.rules,
        ...(own.value.maxEc === undefined ? {} : { maxEc: own.value.maxEc }),
        shelf: inputs.shelf.products,
        waters: inputs.waters,
        otherWaters: catalog.waters,
        market: [...catalog.products, ...catalog.salts],
        goal,
        ...(atMost === undefined ? {} : { atMost }),
      },
    ];
  });
}

/** What --temperature says, where it was given. */
export function temperature(given: Given, collected: Collected): Pick<FeedRequest, 'temperatureC'> {
  const celsius = collected.option(given, 'temperature', (text) => parseTemperature(text, { field: '--temperature' }));
  return celsius === undefined ? {} : { temperatureC: celsius };
}

/** Options that describe a feed. */
export const FEED_WORDS = ['plants', 'medium', 'phase', 'strength', 'rule', 'nh4'] as const;

/** The feeds of the bench that the command is about; null where the options have to say everything. */
function chosenFeeds(given: Given, from: BenchInput, collected: Collected): FeedSpec[] | null {
  if (from.faulty) return [];
  const name = given.text('feed');
  const feeds = from.bench?.feeds ?? [];
  if (name === undefined) return given.text('plants') === undefined && feeds.length > 0 ? feeds : null;
  const feed = feeds.find((f) => f.name === name) ?? feeds.find((f) => f.name.toLowerCase() === name.toLowerCase());
  if (feed) return [feed];
  const names = feeds.map((f) => f.name);
  const guess = nearest(name, names, 1)[0];
  const fix = guess
    ? `Did you mean ${guess}?`
    : names.length > 0
      ? `The feeds are ${names.join(', ')}.`
      : 'This bench has no feeds: say --plants and --medium instead.';
  collected.add(problem('unknown-feed', { field: '--feed' }, `"${name}"`, 'a feed of the bench', fix));
  return [];
}

function rainByDefault(catalog: Catalog, collected: Collected): Water[] {
  collected.add(
    warning(
      'water-assumed',
      { field: '--water' },
      'no water named',
      'a water',
      'Rain water is assumed; name yours with --water, or in bench.yaml.',
    ),
  );
  const rain = collected.take(findWater(catalog, 'rain'));
  return rain ? [rain] : [];
}

const penScale = (pen: Pen): PenScale => (pen.reads === 'EC' ? 'EC' : pen.scale);
