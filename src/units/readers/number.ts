import { type Comma, type Read, type Unread, unread } from './read.js';

/** How numbers are written where the text comes from. */
export interface Writing {
  /** True where a comma can only be a decimal comma, as in a file whose cells are separated by `;`: then there is nothing to tell. */
  decimalComma?: boolean;
}

/** A number and the length of what was read of the text as `spelledOut` has it. */
export type Leading = { ok: true; value: number; length: number; comma: Comma | null } | Unread;

/**
 * Reads the number that a text begins with: `450`, `.5`, `1/4`, `1 1/2`, `½`, `1½`, `1,5`. Refuses what could mean two things (`1,500`,
 * `1 500`, `1.234.567`), a sign, and division by zero.
 */
export function readNumber(text: string, { decimalComma = false }: Writing = {}): Leading {
  const written = spelledOut(text);
  const plain = decimalComma ? written.replace(/^(\d+),(\d+)(?![\d,.])/, '$1.$2') : written;
  const ambiguous = AMBIGUOUS.exec(plain);
  if (ambiguous) {
    return unread(
      'unclear',
      `"${ambiguous[0]}"`,
      'a number that can be read one way only',
      'Write it without thousands marks, with a point before decimals.',
    );
  }
  if (/^[-−–]\s*[\d.,]/.test(plain))
    return unread('sign', `"${text.trim()}"`, 'an amount of zero or more', 'Leave the sign out.');
  const match = NUMBER.exec(plain);
  if (!match?.groups) {
    const why = /^[\d.,]/.test(plain) ? 'unclear' : 'other';
    return unread(why, `"${text.trim()}"`, 'a number first', 'Write a number and a unit, such as 450 g or 1/4 tsp.');
  }
  const { whole, top, bottom, decimal } = match.groups;
  const value =
    decimal === undefined ? Number(whole ?? 0) + Number(top) / Number(bottom) : Number(decimal.replace(',', '.'));
  if (!Number.isFinite(value))
    return unread(
      'unclear',
      `"${match[0].trim()}"`,
      'a finite number',
      'Write a smaller number, or a fraction with a bottom other than 0.',
    );
  const comma = decimal?.includes(',') ? { written: match[0], value } : null;
  return { ok: true, value, length: match[0].length, comma };
}

/** A number and whatever words stand behind it. */
export interface Figure {
  value: number;
  /** As written, with a point before decimals. */
  written: string;
  words: string;
}

/** Reads a number with the words behind it, such as a unit. */
export function readFigure(text: string, writing: Writing = {}): Read<Figure> {
  const number = readNumber(text, writing);
  if (!number.ok) return number;
  const plain = spelledOut(text);
  const written = plain.slice(0, number.length).trim().replace(',', '.');
  return {
    ok: true,
    value: { value: number.value, written, words: plain.slice(number.length).trim() },
    comma: number.comma,
  };
}

/** Reads a number that stands alone, or with one of these words behind it (`20 %`, `40 mg/L`), which say nothing new. */
export function readPlainNumber(text: string, words: readonly string[] = [], writing: Writing = {}): Read<number> {
  const figure = readFigure(text, writing);
  if (!figure.ok) return figure;
  const behind = figure.value.words.toLowerCase();
  if (behind === '' || words.some((word) => spelledOut(word).toLowerCase() === behind))
    return { ok: true, value: figure.value.value, comma: figure.comma };
  return unread('other', `"${text.trim()}"`, 'a number alone', 'Write the number alone.');
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
