import { readBench } from '../../catalog/bench.js';
import type { FeedSpec } from '../../catalog/bench-types.js';
import type { Catalog } from '../../catalog/catalog.js';
import type { Water } from '../../label/product.js';
import { type Checked, type Problem, problem } from '../../problem.js';
import { strengthText } from '../../programme/strength.js';
import { parseShare } from './share.js';
import { parseWaterWords } from './water.js';

/** A feed as options say it, each key as bench.yaml has it; what is absent was not said. */
export interface FeedWords {
  plants?: string | undefined;
  medium?: string | undefined;
  phase?: string | undefined;
  strength?: string | undefined;
  batch?: string | undefined;
  water: readonly string[];
  rules: readonly string[];
  /** Most ammonium as a share of total nitrogen; one more rule. */
  nh4?: string | undefined;
}

/** What the options say, on top of the feeds of a bench. */
export interface OptionBench {
  /** Undefined where no water was named. */
  waters?: Water[];
  feeds: FeedSpec[];
}

/**
 * Reads the words by the very reader of bench.yaml, so that a word means the same in both. Without feeds of a bench (`base` is null) the
 * words have to name plants and medium. What could be read is returned beside every problem of the rest.
 */
export function readFeedWords(
  words: FeedWords,
  base: FeedSpec[] | null,
  catalog: Catalog,
): { bench: OptionBench; problems: Problem[] } {
  const problems: Problem[] = [];
  const waters = waterWords(words, problems);
  const rules = ownRules(words, problems);
  const said = FEED_KEYS.flatMap((key) => (words[key] === undefined ? [] : [[key, words[key]] as const]));
  const plain =
    base === null
      ? newFeed(words, problems)
      : base.length === 0
        ? anyFeed(catalog)
        : base.map((feed) => [feed.name, keysOf(feed)] as const);
  const feeds = new Map(plain.map(([name, keys]) => [name, { ...keys, ...Object.fromEntries(said), rules }]));
  if (base !== null && said.length + rules.length === 0 && waters.length === 0)
    return { bench: { feeds: base }, problems };
  if (feeds.size === 0 && waters.length === 0) return { bench: { feeds: [] }, problems };
  const text = JSON.stringify({ water: waters.length > 0 ? waters : 'pure', feeds: Object.fromEntries(feeds) });
  const read = take(toOptions(readBench(text, 'options', catalog)), problems);
  const bench: OptionBench = {
    ...(waters.length > 0 && read ? { waters: read.waters } : {}),
    feeds: (base?.length === 0 ? [] : (read?.feeds ?? [])).map((feed) => {
      const own = base?.find((b) => b.name === feed.name);
      // the rules of the bench were read at their own lines
      return { ...feed, rules: [...(own?.rules ?? []), ...feed.rules], where: own?.where ?? {} };
    }),
  };
  return { bench, problems };
}

const FEED_KEYS = ['plants', 'medium', 'phase', 'strength', 'batch'] as const;

interface FeedKeys {
  plants?: string;
  medium?: string;
  phase?: string;
  strength?: string;
  batch?: string;
  weekly?: string;
}

/** A feed that the options alone describe. */
function newFeed(words: FeedWords, problems: Problem[]): (readonly [string, FeedKeys])[] {
  const missing = (['plants', 'medium'] as const).filter((name) => words[name] === undefined);
  if (missing.length === 2) {
    problems.push(
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
    problems.push(
      problem('no-feed', { field: `--${name}` }, `no --${name}`, '--plants and --medium together', `Add --${name}.`),
    );
  }
  return missing.length > 0 ? [] : [[`${words.plants} in ${words.medium}`, {}]];
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
  };
}

function waterWords(words: FeedWords, problems: Problem[]): (string | Record<string, string>)[] {
  return words.water.flatMap((text) => {
    const read = take(parseWaterWords(text, { field: '--water' }), problems);
    return read === undefined ? [] : [read];
  });
}

function ownRules(words: FeedWords, problems: Problem[]): string[] {
  const share = words.nh4 === undefined ? undefined : take(parseShare(words.nh4, { field: '--nh4' }), problems);
  return [...words.rules, ...(share === undefined ? [] : [`NH4 <= ${share} * N`])];
}

function take<T>(read: Checked<T>, problems: Problem[]): T | undefined {
  problems.push(...(read.ok ? read.warnings : read.problems));
  return read.ok ? read.value : undefined;
}

/** Points each problem at the option instead of at the line that was made of it; once, though every feed has the line. */
function toOptions<T>(read: Checked<T>): Checked<T> {
  const pointed = (p: Problem): Problem => {
    const field = p.where.field ?? '';
    const option = OPTION_OF.find(([pattern]) => pattern.test(field))?.[1];
    return { ...p, where: option === undefined ? {} : { field: option } };
  };
  const once = (problems: readonly Problem[]): Problem[] => [
    ...new Map(problems.map(pointed).map((p) => [JSON.stringify(p), p])).values(),
  ];
  return read.ok ? { ...read, warnings: once(read.warnings) } : { ok: false, problems: once(read.problems) };
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
