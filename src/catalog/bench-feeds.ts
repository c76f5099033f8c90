import * as z from 'zod';
import { parseRules } from '../programme/parse-rule.js';
import type { Strength } from '../programme/strength.js';
import { type Checked, type Problem, problem } from '../problem.js';
import { readAmount } from './amounts.js';
import type { FeedSpec } from './bench-types.js';
import { type Catalog, findMedium, findPhase, findPlants } from './catalog.js';
import { anything, describe, readSection, words } from './section.js';
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
  return entriesOf(spot).flatMap(({ key, at }) => readFeed(key, at, catalog, problems));
}

function readFeed(name: string, spot: Spot, catalog: Catalog, problems: Problem[]): FeedSpec[] {
  const given = readSection(spot, FEED, problems);
  if (!given) return [];
  const take = <T>(read: Checked<T>): T | undefined => {
    if (!read.ok) problems.push(...read.problems);
    return read.ok ? read.value : undefined;
  };
  const at = (key: string) => whereIs(childOf(spot, key));
  const plants = given.plants === undefined ? undefined : take(findPlants(catalog, String(given.plants), at('plants')));
  const medium = given.medium === undefined ? undefined : take(findMedium(catalog, String(given.medium), at('medium')));
  const phase = given.phase === undefined ? 'growth' : take(findPhase(catalog, String(given.phase), at('phase')));
  const strength = given.strength === undefined ? FULL : strengthOf(childOf(spot, 'strength'), problems);
  const batchLitres = given.batch === undefined ? undefined : litresOf(childOf(spot, 'batch'), problems);
  const weeklyLitres = given.weekly === undefined ? undefined : litresOf(childOf(spot, 'weekly'), problems);
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
      rules,
      where: whereIs(spot),
    },
  ];
}

const FULL: Strength = { kind: 'percent', percent: 100 };

/** Past five times full strength lies a slip of the pen. */
const MOST_PERCENT = 500;
const MOST_NITROGEN = 2000;

/** `80 %`, `N: 90 mg/L` as text or as a key. */
function strengthOf(spot: Spot, problems: Problem[]): Strength | undefined {
  const content = isMapSpot(spot) ? keyed(spot) : contentOf(spot);
  const text = typeof content === 'string' ? content.trim() : String(content ?? '');
  const nitrogen = /^N\s*[:=]?\s*(?=\d)(.*)$/i.exec(text)?.[1];
  if (nitrogen === undefined && !/%|percent|per cent/i.test(text)) {
    problems.push(
      problem('strength', whereIs(spot), describe(contentOf(spot)), '80 % or "N: 90 mg/L"', sayWhich(text)),
    );
    return undefined;
  }
  const amount = readAmount(nitrogen ?? text, whereIs(spot), false, problems);
  if (!amount) return undefined;
  if (nitrogen === undefined && amount.kind === 'share' && amount.percent > 0 && amount.percent <= MOST_PERCENT) {
    return { kind: 'percent', percent: amount.percent };
  }
  if (
    nitrogen !== undefined &&
    amount.kind === 'mass per volume' &&
    amount.mgPerLitre > 0 &&
    amount.mgPerLitre <= MOST_NITROGEN
  ) {
    return { kind: 'nitrogen', mgPerLitre: amount.mgPerLitre };
  }
  problems.push(
    problem(
      'strength',
      whereIs(spot),
      describe(text),
      `more than 0 and at most ${MOST_PERCENT} %, or N up to ${MOST_NITROGEN} mg/L`,
      'Write for example 80 % or "N: 90 mg/L".',
    ),
  );
  return undefined;
}

/** `{ N: 90 mg/L }` as `N: 90 mg/L`; any other keys as they are, to be refused. */
function keyed(spot: Spot): string {
  return entriesOf(spot)
    .map(({ key, at }) => `${key}: ${String(contentOf(at) ?? '')}`)
    .join(', ');
}

function sayWhich(text: string): string {
  const value = Number(text);
  if (!(value > 0)) return 'Write for example 80 % or "N: 90 mg/L".';
  return `Say which: ${value <= 1 ? `${value * 100} % of full strength?` : `${value} %, or "N: ${value} mg/L"?`}`;
}

/** A tanker holds 30,000 L; past that the unit is wrong. */
const MOST_LITRES = 30_000;

function litresOf(spot: Spot, problems: Problem[]): number | undefined {
  const text = String(contentOf(spot));
  const amount = readAmount(text, whereIs(spot), false, problems);
  if (!amount) return undefined;
  if (amount.kind === 'volume' && amount.millilitres > 0 && amount.millilitres <= MOST_LITRES * 1000)
    return amount.millilitres / 1000;
  problems.push(
    problem(
      'volume',
      whereIs(spot),
      describe(text),
      `a volume above 0 and up to ${MOST_LITRES} L`,
      'Write for example 4 L or 1 US gal.',
    ),
  );
  return undefined;
}

/** The grower's rules as written, each one parsed for its faults. */
function rulesOf(spot: Spot, problems: Problem[]): string[] {
  return itemsOf(spot).map((item) => {
    const text = String(contentOf(item) ?? '');
    const parsed = parseRules([text], 'you', whereIs(item));
    problems.push(...(parsed.ok ? parsed.warnings : parsed.problems));
    return text;
  });
}

const FEED = z.strictObject({
  plants: words.describe('a plant group, such as phalaenopsis'),
  medium: words.describe('a medium, such as sphagnum'),
  phase: words.optional().describe('growth, bloom or rest'),
  strength: anything.optional().describe('80 % or "N: 90 mg/L"'),
  batch: words.optional().describe('a volume, such as 4 L'),
  weekly: words.optional().describe('a volume, such as 10 L'),
  rules: z
    .union([words, z.array(words)])
    .optional()
    .describe('a list of rules, such as ["NH4 <= 0.25 * N"]'),
});
