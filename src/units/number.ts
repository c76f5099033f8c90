import { type Problem, warning, type Where } from '../problem.js';
import { formatNumber } from './format.js';

/** A number read from words, with what the reader should be told about how it was read. */
export type ReadNumber =
  | { ok: true; value: number; length: number; comma: boolean }
  | { ok: false; found: string; expected: string; fix: string };

/**
 * Reads the number that a text begins with: `450`, `.5`, `1/4`, `1 1/2`, `½`, `1½`, `1,5` (comma = true, so that the caller can
 * say how it was read). Refuses what could mean two things (`1,500`, `1 500`, `1.234.567`), a sign, and division by zero.
 */
export function readNumber(text: string): ReadNumber {
  const plain = spelledOut(text);
  const ambiguous = AMBIGUOUS.exec(plain);
  if (ambiguous) {
    return no(
      `"${ambiguous[0]}"`,
      'a number that can be read one way only',
      'Write it without thousands marks, with a point before decimals.',
    );
  }
  if (/^[-−–]/.test(plain)) return no(`"${text.trim()}"`, 'an amount of zero or more', 'Leave the sign out.');
  const match = NUMBER.exec(plain);
  if (!match?.groups)
    return no(`"${text.trim()}"`, 'a number first', 'Write a number and a unit, such as 450 g or 1/4 tsp.');
  const { whole, top, bottom, decimal } = match.groups;
  const value =
    decimal === undefined ? Number(whole ?? 0) + Number(top) / Number(bottom) : Number(decimal.replace(',', '.'));
  if (!Number.isFinite(value))
    return no(
      `"${match[0].trim()}"`,
      'a finite number',
      'Write a smaller number, or a fraction with a bottom other than 0.',
    );
  const comma = decimal?.includes(',') ?? false;
  return { ok: true, value, length: match[0].length, comma };
}

/** How a number with a decimal comma was read, for the one who wrote it. */
export function commaWarning(written: string, value: number, where: Where): Problem {
  return warning(
    'decimal-comma',
    where,
    `"${written.trim()}"`,
    'a decimal point',
    `Read as ${formatNumber(value, 15)}.`,
  );
}

/** The same text with ½ and its kin as `1/2` (a space before it after a whole number), full-width digits as plain ones. */
export function spelledOut(text: string): string {
  return text
    .replace(
      /(\d?)([¼½¾⅐-⅞↉])/g,
      (_, digit: string, mark: string) => `${digit}${digit ? ' ' : ''}${mark.normalize('NFKC')}`,
    )
    .normalize('NFKC')
    .replace(/⁄/g, '/')
    .replace(/μ/g, 'µ')
    .trim();
}

/** 1,500 · 1,234.5 · 1 500 · 1'500 · 1.234.567; a comma after a lone 0 can only be a decimal comma. */
const AMBIGUOUS =
  /^(?:(?!0,)\d{1,3}(?:,\d{3})+(?:\.\d+)?(?!\d)|\d{1,3}(?: \d{3})+(?![\d/])(?:[.,]\d+)?|\d{1,3}(?:['’]\d{3})+|\d+(?:\.\d+){2,}|\d+(?:\.\d{3})+,\d+|\d+,\d+[,.]\d+)/;
const NUMBER =
  /^(?:(?:(?<whole>\d+) +)?(?<top>\d+) ?\/ ?(?<bottom>\d+)|(?<decimal>(?:\d+(?:[.,]\d*)?|[.,]\d+)(?:e[-+]?\d+)?))(?![\d.,])/i;

function no(found: string, expected: string, fix: string): ReadNumber {
  return { ok: false, found, expected, fix };
}
