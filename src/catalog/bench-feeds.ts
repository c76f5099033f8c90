import { parseRules } from '../programme/parse-rule.js';
import type { Rule } from '../programme/rule.js';
import type { Strength } from '../programme/strength.js';
import { type Checked, type Problem, problem, type Where } from '../problem.js';
import { identityOf, invisibleIn, MOST } from '../units/index.js';
import { POT_KEYS, readPotsAndMonths } from './bench-season.js';
import type { FeedSpec } from './bench-types.js';
import { invisible } from './cells.js';
import { type Catalog, findMedium, findPhase, findPlants } from './catalog.js';
import { readCan, readStrength, readWeekly } from './feed-values.js';
import {
  anything,
  describe,
  oneOrMore,
  optional,
  readSection,
  required,
  sectionOf,
  words,
  wordsOf,
} from './section.js';
import { childOf, contentOf, entriesOf, isMapSpot, itemsOf, type Spot, whereIs } from './yaml.js';

/** Reads the feeds of a bench, in their order. A phase that is not said is growth, a strength 100 %. */
export function readFeeds(spot: Spot, catalog: Catalog, problems: Problem[]): FeedSpec[] {
  if (!isMapSpot(spot)) {
    problems.push(
      problem(
        'feeds-not-keys',
        whereIs(spot),
        describe(contentOf(spot)),
        'feeds by name',
        'Write feeds: { moss: { plants: pleurothallid, medium: sphagnum } }.',
      ),
    );
    return [];
  }
  const entries = entriesOf(spot);
  problems.push(...nameProblems(entries.map(({ key, at }) => ({ key, where: whereIs(at) }))));
  if (entries.length > MOST.feeds) return [];
  return entries.flatMap(({ key, at }) => readFeed(key, at, catalog, problems));
}

/** Too many feeds; two whose names only case or width tell apart; a mark in a name that nobody sees. */
function nameProblems(entries: readonly { key: string; where: Where }[]): Problem[] {
  const first = new Map<string, string>();
  const problems = entries.flatMap(({ key, where }) => {
    const mark = invisibleIn(key);
    const seen = first.get(identityOf(key));
    first.set(identityOf(key), seen ?? key);
    return [
      ...(mark === null ? [] : [invisible(key, mark, where)]),
      ...(seen === undefined
        ? []
        : [
            problem(
              'feed-twice',
              where,
              `feed ${describe(key)} beside ${describe(seen)}`,
              'each name once, whatever its case',
              'Rename one of them.',
            ),
          ]),
    ];
  });
  const many = entries.length > MOST.feeds;
  return many
    ? [
        problem('too-many-feeds', {}, `${entries.length} feeds`, `at most ${MOST.feeds}`, 'Split the bench in two.'),
        ...problems,
      ]
    : problems;
}

function readFeed(name: string, spot: Spot, catalog: Catalog, problems: Problem[]): FeedSpec[] {
  const given = readSection(spot, FEED, problems);
  if (!given) return [];
  const take = <T>(read: Checked<T>): T | undefined => {
    problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : undefined;
  };
  const at = (key: string) => whereIs(childOf(spot, key));
  const plants = given.plants === undefined ? undefined : take(findPlants(catalog, String(given.plants), at('plants')));
  const medium = given.medium === undefined ? undefined : take(findMedium(catalog, String(given.medium), at('medium')));
  const phase = given.phase === undefined ? 'growth' : take(findPhase(catalog, String(given.phase), at('phase')));
  const strength =
    given.strength === undefined ? FULL : take(readStrength(strengthText(childOf(spot, 'strength')), at('strength')));
  const batchLitres = given.batch === undefined ? undefined : take(readCan(String(given.batch), at('batch')));
  const weeklyLitres = given.weekly === undefined ? undefined : take(readWeekly(String(given.weekly), at('weekly')));
  const potsAndMonths = readPotsAndMonths(
    spot,
    { pots: given.pots, pot: given.pot, watering: given.watering, months: given.months },
    catalog,
    problems,
  );
  const rules = given.rules === undefined ? [] : rulesOf(childOf(spot, 'rules'), problems);
  if (plants === undefined || medium === undefined || phase === undefined || strength === undefined) return [];
  return [
    {
      name,
      plants,
      medium,
      phase,
      strength,
      ...(batchLitres === undefined ? {} : { batchLitres }),
      ...(weeklyLitres === undefined ? {} : { weeklyLitres }),
      ...potsAndMonths,
      rules,
      where: whereIs(spot),
    },
  ];
}

const FULL: Strength = { kind: 'percent', percent: 100 };

/** As text, or as a key: `strength: { N: 90 mg/L }`. */
function strengthText(spot: Spot): string {
  const content = isMapSpot(spot) ? keyed(spot) : contentOf(spot);
  return wordsOf(content);
}

/** `{ N: 90 mg/L }` as `N: 90 mg/L`; any other keys as they are, to be refused. */
function keyed(spot: Spot): string {
  return entriesOf(spot)
    .map(({ key, at }) => `${key}: ${wordsOf(contentOf(at))}`)
    .join(', ');
}

/** The grower's rules that can be read; the faults of the others are told where they stand. */
function rulesOf(spot: Spot, problems: Problem[]): Rule[] {
  return itemsOf(spot).flatMap((item) => {
    const parsed = parseRules([wordsOf(contentOf(item))], { owner: 'you' }, whereIs(item));
    problems.push(...(parsed.ok ? parsed.warnings : parsed.problems));
    return parsed.ok ? parsed.value : [];
  });
}

/** The keys of a feed. */
export const FEED = sectionOf({
  plants: required(words, 'a plant group, such as phalaenopsis'),
  medium: required(words, 'a medium, such as sphagnum'),
  phase: optional(words, 'growth, bloom or rest'),
  strength: optional(anything, '80 % or "N: 90 mg/L"'),
  batch: optional(words, 'a volume, such as 4 L'),
  weekly: optional(words, 'a volume, such as 10 L'),
  ...POT_KEYS,
  rules: optional(oneOrMore, 'a list of rules, such as ["NH4 <= 0.25 * N"]'),
});
