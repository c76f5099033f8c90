import { atDoor } from '../../door.js';
import { readHemisphere, readLight, readTemperatures } from '../../catalog/season-values.js';
import type { Checked, Where } from '../../problem.js';
import { isWithin, rangeText, readPlainNumber } from '../../units/index.js';
import { parseDate } from './day.js';
import type { Option } from './option.js';
import { refused, refusedText, taken } from './refused.js';

/** Years that a plan can begin in: those of people who read this, and of calendars that write four figures. */
const [FIRST_YEAR, LAST_YEAR] = [1970, 2199];

/** The first day of a year of feed. */
export function parseFirstDay(text: string, where: Where): Checked<string> {
  const read = parseDate(text, where);
  const year = read.ok ? Number(read.value.slice(0, 4)) : FIRST_YEAR;
  if (year >= FIRST_YEAR && year <= LAST_YEAR) return read;
  const expected = `a day from ${FIRST_YEAR} to ${LAST_YEAR}`;
  return refused('date', where, `"${text}"`, expected, 'Write for example 2026-12-01.');
}

/** Days from an order to its parcel: `10 days`, `2 weeks`; a bare number is in days. */
export function parseLead(text: string, where: Where): Checked<number> {
  const inWeeks = readPlainNumber(text, ['weeks', 'week']);
  const read = readPlainNumber(text, ['days', 'day', 'd']);
  const days = read.ok ? read.value : inWeeks.ok ? 7 * inWeeks.value : Number.NaN;
  if (Number.isInteger(days) && isWithin('leadDays', days))
    return taken(days, read.ok ? read : (inWeeks as never), where);
  return refusedText(
    text,
    read,
    'lead',
    where,
    `whole days ${rangeText('leadDays')}`,
    atDoor({ typed: 'Write for example --lead "10 days".', page: 'Write for example 10 days.' }),
  );
}

/** How a year of feed is asked for. */
export const SEASON_WISHES = {
  from: { value: 'DATE', says: 'the first day, as 2026-12-01', usual: 'today', read: parseFirstDay },
  hemisphere: {
    value: 'HALF',
    says: 'which half of the world: north or south',
    usual: 'as your own light or temperature tell; else north',
    bench: 'season.hemisphere',
    read: readHemisphere,
    choices: ['north', 'south'],
  },
  light: {
    value: 'FIGURES',
    says: 'light of twelve months, January first, in whatever grows with it ("3, 4, 6, 8, …"): below half of the brightest month plants rest',
    usual: 'the winter months of the hemisphere',
    bench: 'season.light',
    read: readLight,
  },
  roomTemperature: {
    value: 'FIGURES',
    says: 'mean temperature of twelve months, January first ("16, 16, 17, …"): below 15 °C plants rest',
    unit: '°C',
    bench: 'season.temperature',
    read: readTemperatures,
  },
  buy: {
    says: 'first buy what every feed of the year can be mixed from: the cheapest packs, as the command buy finds them',
  },
  lead: {
    value: 'TIME',
    says: 'days from an order to its parcel: "10 days", "2 weeks"',
    usual: '2 weeks',
    unit: 'days',
    read: parseLead,
  },
} as const satisfies Record<string, Option>;
