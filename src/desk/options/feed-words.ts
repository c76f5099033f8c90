import type { FeedSpec } from '../../catalog/bench-types.js';
import { type Catalog, findMedium, findPhase, findPlants } from '../../catalog/catalog.js';
import { readStrength } from '../../catalog/feed-values.js';
import type { Water } from '../../label/product.js';
import { type Checked, type Problem, problem, type Where } from '../../problem.js';
import { parseRules } from '../../programme/parse-rule.js';
import { parseShare } from './share.js';
import { readWaters } from './water.js';

/** A feed as options say it; what is absent was not said. */
export interface FeedWords {
  plants?: string | undefined;
  medium?: string | undefined;
  phase?: string | undefined;
  strength?: string | undefined;
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
 * Reads the words by the very readers of bench.yaml, so that a word means the same in both. Without feeds of a bench (`base` is null) the
 * words have to name plants and medium. What could be read is returned beside every problem of the rest.
 */
export function readFeedWords(
  words: FeedWords,
  base: readonly FeedSpec[] | null,
  catalog: Catalog,
): { bench: OptionBench; problems: Problem[] } {
  const problems: Problem[] = [];
  const take = <T>(text: string | undefined, field: string, read: (text: string, where: Where) => Checked<T>) => {
    if (text === undefined) return undefined;
    const value = read(text, { field });
    problems.push(...(value.ok ? value.warnings : value.problems));
    return value.ok ? value.value : undefined;
  };
  const waters = words.water.length === 0 ? undefined : readWaters(words.water, { field: '--water' }, catalog);
  problems.push(...(waters === undefined ? [] : waters.ok ? waters.warnings : waters.problems));
  const share = take(words.nh4, '--nh4', parseShare);
  const missing = base === null ? unnamed(words) : [];
  problems.push(...missing);
  const said: Partial<FeedSpec> = defined({
    plants: take(words.plants, '--plants', (text, where) => findPlants(catalog, text, where)),
    medium: take(words.medium, '--medium', (text, where) => findMedium(catalog, text, where)),
    phase: take(words.phase, '--phase', (text, where) => findPhase(catalog, text, where)),
    strength: take(words.strength, '--strength', readStrength),
  });
  for (const rule of words.rules) take(rule, '--rule', (text, where) => parseRules([text], 'you', where));
  const rules = [...words.rules, ...(share === undefined ? [] : [`NH4 <= ${share} * N`])];
  const feeds = base ?? (problems.some((p) => p.severity === 'error') ? [] : [newFeed(words, said)]);
  return {
    bench: {
      ...(waters?.ok ? { waters: waters.value } : {}),
      feeds: feeds.map((feed) => ({ ...feed, ...said, rules: [...feed.rules, ...rules] })),
    },
    problems,
  };
}

/** What a feed cannot be read without, where no bench says it. */
function unnamed(words: FeedWords): Problem[] {
  const missing = (['plants', 'medium'] as const).filter((name) => words[name] === undefined);
  if (missing.length === 2)
    return [
      problem(
        'no-feed',
        {},
        'no bench.yaml with feeds, and no --plants',
        'something to feed',
        'Say --plants and --medium, or name a bench with --bench DIR.',
      ),
    ];
  return missing.map((name) =>
    problem('no-feed', { field: `--${name}` }, `no --${name}`, '--plants and --medium together', `Add --${name}.`),
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
