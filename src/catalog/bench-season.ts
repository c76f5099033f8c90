import { type Checked, type Problem, problem } from '../problem.js';
import type { FeedSpec, MonthWords, SeasonFigures } from './bench-types.js';
import type { Catalog } from './catalog.js';
import { readPot, readWeekly } from './feed-values.js';
import {
  monthGuess,
  monthNamed,
  readHemisphere,
  readLight,
  readMonthWords,
  readPots,
  readTemperatures,
} from './season-values.js';
import { anything, describe, oneOrMore, optional, readSection, sectionOf, words } from './section.js';
import { childOf, contentOf, entriesOf, isMapSpot, type Spot, whereIs } from './yaml.js';

/** Reads `season:` of a bench: which half of the world, and light and temperature by month. */
export function readSeason(spot: Spot, problems: Problem[]): SeasonFigures {
  const given = readSection(spot, SEASON, problems);
  if (!given) return {};
  const take = taker(problems);
  const at = (key: string) => whereIs(childOf(spot, key));
  const told = {
    hemisphere:
      given.hemisphere === undefined ? undefined : take(readHemisphere(String(given.hemisphere), at('hemisphere'))),
    light: given.light === undefined ? undefined : take(readLight(listed(given.light), at('light'))),
    temperature:
      given.temperature === undefined
        ? undefined
        : take(readTemperatures(listed(given.temperature), at('temperature'))),
  };
  return Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined));
}

/** What a feed says of its pots and of single months; keys that are not there are left out. */
export function readPotsAndMonths(
  spot: Spot,
  given: Readonly<Record<'pots' | 'pot' | 'watering' | 'months', unknown>>,
  catalog: Catalog,
  problems: Problem[],
): Pick<FeedSpec, 'pots' | 'potLitres' | 'wateringLitres' | 'months'> {
  const take = taker(problems);
  const at = (key: string) => whereIs(childOf(spot, key));
  const told = {
    pots: given.pots === undefined ? undefined : take(readPots(String(given.pots), at('pots'))),
    potLitres: given.pot === undefined ? undefined : take(readPot(String(given.pot), at('pot'))),
    wateringLitres: given.watering === undefined ? undefined : take(readWeekly(String(given.watering), at('watering'))),
    months: given.months === undefined ? undefined : monthsOf(childOf(spot, 'months'), catalog, problems),
  };
  return Object.fromEntries(Object.entries(told).filter(([, value]) => value !== undefined));
}

function monthsOf(spot: Spot, catalog: Catalog, problems: Problem[]): Map<number, MonthWords> {
  const months = new Map<number, MonthWords>();
  if (!isMapSpot(spot)) {
    problems.push(
      problem(
        'months-not-keys',
        whereIs(spot),
        describe(contentOf(spot)),
        'months with what is fed in them',
        'Write months: { Dec: rest, Jan: none }.',
      ),
    );
    return months;
  }
  for (const { key, at } of entriesOf(spot)) {
    const month = monthNamed(key);
    const guess = monthGuess(key);
    if (month === null) {
      const fix = guess === undefined ? 'Write Jan to Dec.' : `Did you mean ${guess}?`;
      problems.push(problem('month', whereIs(at), describe(key), 'a month, Jan to Dec', fix));
    } else if (months.has(month))
      problems.push(problem('month-twice', whereIs(at), describe(key), 'each month once', 'Keep the one you mean.'));
    else {
      const content = oneOrMore.safeParse(contentOf(at) ?? '');
      const said = content.success
        ? readMonthWords(listed(content.data), whereIs(at), catalog)
        : wrongKind(contentOf(at), at);
      const words = taker(problems)(said);
      if (words !== undefined) months.set(month, words);
    }
  }
  return months;
}

const wrongKind = (content: unknown, at: Spot): Checked<MonthWords> => ({
  ok: false,
  problems: [
    problem('value-wrong-kind', whereIs(at), describe(content), 'words', 'Write none, or a phase, strength or litres.'),
  ],
});

const taker =
  (problems: Problem[]) =>
  <T>(read: Checked<T>): T | undefined => {
    problems.push(...(read.ok ? read.warnings : read.problems));
    return read.ok ? read.value : undefined;
  };

/** A list as the text that an option would say: `3; 4; 6`. */
const listed = (value: unknown): string =>
  Array.isArray(value) ? value.map((one) => String(one ?? '')).join('; ') : String(value ?? '');

/** Keys of a feed that tell its pots and months. */
export const POT_KEYS = {
  pots: optional(words, 'how many pots, such as 24'),
  pot: optional(words, 'what one empty pot holds, such as 0.5 L'),
  watering: optional(words, 'what all its pots take at one watering, such as 6 L'),
  months: optional(anything, 'months that are not as the season has them, such as { Dec: rest, Jan: none }'),
};

/** Keys of `season:`. */
export const SEASON = sectionOf({
  hemisphere: optional(words, 'north or south'),
  light: optional(oneOrMore, 'twelve figures that grow with light, January first'),
  temperature: optional(oneOrMore, 'twelve mean temperatures in °C, January first'),
});
