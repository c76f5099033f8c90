import { PHASES } from '../programme/programme.js';
import { type Checked, nearest, type Problem, problem, type Where } from '../problem.js';
import { BOUNDS, type Bounded, isWithin, rangeText, readPlainNumber } from '../units/index.js';
import type { Hemisphere, MonthWords } from './bench-types.js';
import { type Catalog, findPhase } from './catalog.js';
import { readStrength, readWeekly } from './feed-values.js';
import { describe } from './section.js';

/** `north` or `south`. */
export function readHemisphere(text: string, where: Where): Checked<Hemisphere> {
  const [, word] = /^(north|south)(?:ern)?$/i.exec(text.trim()) ?? [];
  if (word !== undefined) return { ok: true, value: word.toLowerCase() as Hemisphere, warnings: [] };
  const fix = 'Say which half of the world you grow in.';
  return { ok: false, problems: [problem('hemisphere', where, describe(text), 'north or south', fix)] };
}

/** Twelve figures that grow with light, January first, parted by commas or blanks. */
export const readLight = (text: string, where: Where): Checked<number[]> => twelve(text, where, 'light', []);

/** Twelve mean temperatures, °C, January first. */
export const readTemperatures = (text: string, where: Where): Checked<number[]> =>
  twelve(text, where, 'temperature', ['°C', 'C']);

function twelve(text: string, where: Where, name: Bounded, units: readonly string[]): Checked<number[]> {
  const parts = partsOf(text);
  const values = parts.map((part) => readPlainNumber(part, units));
  const fine = values.flatMap((read) => (read.ok && isWithin(name, read.value) ? [read.value] : []));
  if (fine.length === 12 && parts.length === 12) return { ok: true, value: fine, warnings: [] };
  const wrong = parts.find((_, i) => !(values[i]!.ok && isWithin(name, (values[i] as { value: number }).value)));
  const found = parts.length === 12 ? describe(wrong) : `${parts.length} figures`;
  const expected = `twelve figures, January first, ${rangeText(name)}`;
  return { ok: false, problems: [problem('twelve', where, found, expected, `Write for example "${EXAMPLE[name]}".`)] };
}

const EXAMPLE: Readonly<Partial<Record<Bounded, string>>> = {
  light: '3, 4, 6, 8, 9, 10, 10, 9, 7, 5, 3, 3',
  temperature: '16, 16, 17, 19, 21, 23, 24, 24, 22, 19, 17, 16',
};

/** Semicolons, blanks, or commas where there is neither: a comma inside a figure is its decimal comma. */
function partsOf(text: string): string[] {
  const plain = text.trim().replace(/(\d)\s*°\s*C\b/gi, '$1');
  const parted = plain.includes(';') ? plain.split(';') : /\s/.test(plain) ? plain.split(/,?\s+/) : plain.split(',');
  return parted.map((part) => part.trim()).filter((part) => part !== '');
}

/** How many pots a feed is for. */
export function readPots(text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text, ['pots', 'pot']);
  if (read.ok && Number.isInteger(read.value) && isWithin('pots', read.value))
    return { ok: true, value: read.value, warnings: [] };
  const { least, most } = BOUNDS.pots;
  const expected = `a whole number of pots from ${least} to ${most}`;
  return { ok: false, problems: [problem('pots', where, describe(text), expected, 'Write for example 24.')] };
}

/** What a feed is in one month: `none`, or any of a phase, a strength and litres a week, parted by commas: `rest, 50 %, 4 L`. */
export function readMonthWords(text: string, where: Where, catalog: Catalog): Checked<MonthWords> {
  const parts = text
    .split(/,\s+|;\s*/)
    .map((part) => part.trim())
    .filter((part) => part !== '');
  if (/^(none|no feed|nothing|unfed)$/i.test(text.trim())) return { ok: true, value: { fed: false }, warnings: [] };
  const problems: Problem[] = [];
  const said: Exclude<MonthWords, { fed: false }> = { fed: true };
  const put = <K extends 'phase' | 'strength' | 'weeklyLitres'>(
    key: K,
    read: Checked<NonNullable<(typeof said)[K]>>,
  ): void => {
    if (!read.ok) problems.push(...read.problems);
    else if (said[key] !== undefined)
      problems.push(problem('month-twice', where, describe(text), 'each thing once', 'Keep the one you mean.'));
    else said[key] = read.value as never;
  };
  for (const part of parts) {
    if (/%|per ?cent|^N\s*[:=]?\s*\d/i.test(part)) put('strength', readStrength(part, where));
    else if (/^[\d.,]/.test(part)) put('weeklyLitres', readWeekly(part, where));
    else put('phase', findPhase(catalog, part, where));
  }
  if (parts.length === 0) {
    const expected = `none, or a phase (${PHASES.join(', ')}), a strength or litres a week`;
    problems.push(
      problem('month-empty', where, describe(text), expected, 'Write for example Dec: rest, or Jan: none.'),
    );
  }
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: said, warnings: [] };
}

/** 1 to 12 of `Dec`, `december` or `12`; null where it is no month. */
export function monthNamed(word: string): number | null {
  const plain = word.trim().toLowerCase().replace(/\.$/, '');
  const place = MONTH_WORDS.findIndex((name) => plain.length >= 3 && name.startsWith(plain));
  if (place >= 0 || plain === 'sept') return plain === 'sept' ? 9 : place + 1;
  return /^(0?[1-9]|1[0-2])$/.test(plain) ? Number(plain) : null;
}

/** The months that a misspelt one may mean. */
export const monthGuess = (word: string): string | undefined => nearest(word.toLowerCase(), MONTH_WORDS, 1)[0];

/** Their names in small letters, January first. */
export const MONTH_WORDS = [
  'january',
  'february',
  'march',
  'april',
  'may',
  'june',
  'july',
  'august',
  'september',
  'october',
  'november',
  'december',
];
