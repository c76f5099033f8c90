import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** A whole number from 1 to 9999. */
export function parseCount(text: string, where: Where): Checked<number> {
  if (/^\s*[1-9]\d{0,3}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return refused('count', where, `"${text}"`, 'a whole number, 1 or more', 'Write for example 3.');
}

/** How many products may be bought that are not on the shelf: a whole number from 0 (refills only) to 9999. */
export function parseNumberOfProducts(text: string, where: Where): Checked<number> {
  if (/^\s*\d{1,4}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return refused(
    'number-of-products',
    where,
    `"${text}"`,
    'a whole number, 0 or more',
    'Write for example 2; 0 buys more of what is on the shelf only.',
  );
}

/** Money to spend, in the currency of the bench, up to a million. */
export const parseMoney = (text: string, where: Where): Checked<number> =>
  plainNumber(text, 0, 'money, 0 or more', where);

/** How long to search, in seconds. */
export const parseSeconds = (text: string, where: Where): Checked<number> =>
  plainNumber(text, 0.1, 'seconds, 0.1 or more', where);

function plainNumber(text: string, least: number, expected: string, where: Where): Checked<number> {
  const value = /^\s*\d+(?:\.\d+)?\s*$/.test(text) ? Number(text) : Number.NaN;
  if (value >= least && value <= 1e6) return { ok: true, value, warnings: [] };
  return refused('number-option', where, `"${text}"`, expected, `Write for example ${where.field ?? ''} 30.`);
}
