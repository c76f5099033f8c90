import { atDoor } from '../../door.js';
import type { FeedSpec } from '../../catalog/bench-types.js';
import type { Catalog } from '../../catalog/catalog.js';
import type { Water } from '../../label/product.js';
import { type Problem, problem } from '../../problem.js';
import { ratioOfRule } from '../../feed/ratio.js';
import { mostAmmonium, type Rule } from '../../programme/rule.js';
import { type Beside, type ReadKey, readWish, type ValueOf } from './read-wish.js';
import { readWaters } from './water.js';

/** A feed as options say it; what is absent was not said. */
export interface FeedWords {
  plants?: string | undefined;
  medium?: string | undefined;
  phase?: string | undefined;
  strength?: string | undefined;
  /** How much is to be mixed: what bench.yaml calls the batch. */
  mix?: string | undefined;
  water?: readonly string[] | undefined;
  rule?: readonly string[] | undefined;
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
 * Reads the words by the very readers of bench.yaml, so that a word means the same in both. Without feeds of a bench (`base` is null) the
 * words have to name plants and medium. What could be read is returned beside every problem of the rest.
 */
export function readFeedWords(
  words: FeedWords,
  base: readonly FeedSpec[] | null,
  catalog: Catalog,
): { bench: OptionBench; problems: Problem[] } {
  const problems: Problem[] = [];
  const take = <K extends ReadKey>(key: K, text: string | undefined, ...beside: Beside<K>): ValueOf<K> | undefined => {
    if (text === undefined) return undefined;
    const read = readWish(key, text, ...beside);
    problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : undefined;
  };
  const waters = words.water?.length ? readWaters(words.water, { field: '--water' }, catalog) : undefined;
  problems.push(...(waters === undefined ? [] : waters.ok ? waters.warnings : waters.problems));
  const share = take('nh4', words.nh4);
  if (base === null) problems.push(...unnamed(words));
  const said: Partial<FeedSpec> = defined({
    plants: take('plants', words.plants, { catalog }),
    medium: take('medium', words.medium, { catalog }),
    phase: take('phase', words.phase, { catalog }),
    strength: take('strength', words.strength),
    batchLitres: take('mix', words.mix),
  });
  const rules = (words.rule ?? []).flatMap((rule) => take('rule', rule) ?? []);
  const own = [...rules, ...(share === undefined ? [] : [mostAmmonium(share, { owner: 'you' })])];
  const feeds = base ?? (problems.some((p) => p.severity === 'error') ? [] : [newFeed(words, said)]);
  return {
    bench: {
      ...(waters?.ok ? { waters: waters.value } : {}),
      feeds: feeds.map((feed) => ({
        ...feed,
        ...said,
        rules: [...(share === undefined ? feed.rules : feed.rules.filter((rule) => !isMostAmmonium(rule))), ...own],
      })),
    },
    problems,
  };
}

/** The rule that `nh4` says instead. */
const isMostAmmonium = (rule: Rule): boolean => {
  const ratio = rule.kind === 'linear' ? ratioOfRule(rule, 'most') : null;
  return ratio?.isShare === true && ratio.over === 'NH4-N';
};

/** What a feed cannot be read without, where no bench says it. */
function unnamed(words: FeedWords): Problem[] {
  const missing = (['plants', 'medium'] as const).filter((name) => words[name] === undefined);
  if (missing.length === 2)
    return [
      problem(
        'no-feed',
        {},
        atDoor({ typed: 'no bench.yaml with feeds, and no --plants', page: 'no feed on this bench' }),
        'something to feed',
        atDoor({
          typed: 'Say --plants and --medium, or name a bench with --bench DIR.',
          page: 'Make one in Plants: which plants, in what.',
        }),
      ),
    ];
  return missing.map((name) =>
    problem(
      'no-feed',
      { field: `--${name}` },
      `no --${name}`,
      atDoor({ typed: '--plants and --medium together', page: 'plants and medium together' }),
      `Add --${name}.`,
    ),
  );
}

/** A feed that the options alone describe. */
const newFeed = (words: FeedWords, said: Partial<FeedSpec>): FeedSpec => ({
  name: `${words.plants} in ${words.medium}`,
  plants: said.plants!,
  medium: said.medium!,
  phase: 'growth',
  strength: { kind: 'percent', percent: 100 },
  rules: [],
  where: {},
});

/** The same without the keys that hold nothing. */
const defined = <T extends object>(from: T): { [K in keyof T]?: Exclude<T[K], undefined> } =>
  Object.fromEntries(Object.entries(from).filter(([, value]) => value !== undefined)) as never;
