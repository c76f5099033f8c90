import { readBench } from '../catalog/bench.js';
import type { FeedSpec } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import type { Water } from '../label/product.js';
import { type Checked, type Problem, problem } from '../problem.js';
import { strengthText } from '../programme/strength.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import { parseShare, parseWaterWords } from './parse-options.js';

/** What the options say, on top of the feeds of a bench. */
export interface OptionBench {
  /** Undefined where no --water was given. */
  waters?: Water[];
  feeds: FeedSpec[];
}

/**
 * Reads --plants, --medium, --phase, --strength, --volume, --water, --rule and --nh4 by the very reader of bench.yaml, so that a word
 * means the same in both. Without feeds of a bench the options have to name plants and medium.
 */
export function optionBench(
  given: Given,
  base: FeedSpec[] | null,
  catalog: Catalog,
  collected: Collected,
): OptionBench {
  const waters = waterWords(given, collected);
  const rules = ownRules(given, collected);
  const said = FEED_KEYS.flatMap(([option, key]) => {
    const text = given.takes(option) ? given.text(option) : undefined;
    return text === undefined ? [] : [[key, text] as const];
  });
  const plain =
    base === null
      ? newFeed(given, collected)
      : base.length === 0
        ? anyFeed(catalog)
        : base.map((feed) => [feed.name, keysOf(feed)] as const);
  const feeds = new Map(
    plain.map(([name, keys]) => [
      name,
      { ...keys, ...Object.fromEntries(said), rules: [...(keys.rules ?? []), ...rules] },
    ]),
  );
  if (base !== null && said.length + rules.length === 0 && waters.length === 0) return { feeds: base };
  if (feeds.size === 0 && waters.length === 0) return { feeds: [] };
  const text = JSON.stringify({ water: waters.length > 0 ? waters : 'pure', feeds: Object.fromEntries(feeds) });
  const read = collected.take(toOptions(readBench(text, 'options', catalog)));
  return {
    ...(waters.length > 0 && read ? { waters: read.waters } : {}),
    feeds: (base?.length === 0 ? [] : (read?.feeds ?? [])).map((feed) => ({
      ...feed,
      where: base?.find((b) => b.name === feed.name)?.where ?? {},
    })),
  };
}

const FEED_KEYS = [
  ['plants', 'plants'],
  ['medium', 'medium'],
  ['phase', 'phase'],
  ['strength', 'strength'],
  ['volume', 'batch'],
] as const;

interface FeedKeys {
  plants?: string;
  medium?: string;
  phase?: string;
  strength?: string;
  batch?: string;
  weekly?: string;
  rules?: string[];
}

/** A feed that the options alone describe. */
function newFeed(given: Given, collected: Collected): (readonly [string, FeedKeys])[] {
  const missing = (['plants', 'medium'] as const).filter((name) => given.text(name) === undefined);
  if (missing.length === 2) {
    collected.add(
      problem(
        'no-feed',
        {},
        'no bench.yaml with feeds, and no --plants',
        'something to feed',
        'Say --plants and --medium, or name a bench with --bench DIR.',
      ),
    );
  } else if (missing.length === 1) {
    const name = missing[0]!;
    collected.add(
      problem('no-feed', { field: `--${name}` }, `no --${name}`, '--plants and --medium together', `Add --${name}.`),
    );
  }
  if (missing.length > 0) return [];
  return [[`${given.text('plants')} in ${given.text('medium')}`, {}]];
}

/** Where the feed itself is unknown, the other options are still read against some feed, so that all mistakes are told at once. */
function anyFeed(catalog: Catalog): (readonly [string, FeedKeys])[] {
  return catalog.plants.slice(0, 1).map((row) => ['', { plants: row.id, medium: row.media[0] ?? '' }]);
}

/** A feed as bench.yaml would say it. */
function keysOf(feed: FeedSpec): FeedKeys {
  return {
    plants: feed.plants,
    medium: feed.medium,
    phase: feed.phase,
    strength: feed.strength.kind === 'percent' ? strengthText(feed.strength) : `N: ${feed.strength.mgPerLitre} mg/L`,
    ...(feed.batchLitres === undefined ? {} : { batch: `${feed.batchLitres} L` }),
    ...(feed.weeklyLitres === undefined ? {} : { weekly: `${feed.weeklyLitres} L` }),
    rules: feed.rules,
  };
}

function waterWords(given: Given, collected: Collected): (string | Record<string, string>)[] {
  return given.texts('water').flatMap((text) => {
    const words = collected.take(parseWaterWords(text, { field: '--water' }));
    return words === undefined ? [] : [words];
  });
}

function ownRules(given: Given, collected: Collected): string[] {
  const share = collected.option(given, 'nh4', (text) => parseShare(text, { field: '--nh4' }));
  return [...given.texts('rule'), ...(share === undefined ? [] : [`NH4 <= ${share} * N`])];
}

/** Points a problem at the option instead of at the line that was made of it. */
function toOptions<T>(read: Checked<T>): Checked<T> {
  const pointed = (p: Problem): Problem => {
    const field = p.where.field ?? '';
    const option = OPTION_OF.find(([pattern]) => pattern.test(field))?.[1];
    return { ...p, where: option === undefined ? {} : { field: option } };
  };
  return read.ok
    ? { ...read, warnings: read.warnings.map(pointed) }
    : { ok: false, problems: read.problems.map(pointed) };
}

const OPTION_OF: readonly (readonly [RegExp, string])[] = [
  [/^water/, '--water'],
  [/\.rules(\.|$)/, '--rule'],
  [/\.batch$/, '--volume'],
  [/\.strength(\.|$)/, '--strength'],
  [/\.plants$/, '--plants'],
  [/\.medium$/, '--medium'],
  [/\.phase$/, '--phase'],
];
