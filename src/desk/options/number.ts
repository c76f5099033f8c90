import { atDoor } from '../../door.js';
import type { Checked, Where } from '../../problem.js';
import { otherCurrency, readMoney, readPlainNumber } from '../../units/index.js';
import { refused, refusedText, taken } from './refused.js';

/** A whole number from 1 to 9999. */
export function parseCount(text: string, where: Where): Checked<number> {
  if (/^\s*[1-9]\d{0,3}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return refused('count', where, `"${text}"`, 'a whole number, 1 or more', 'Write for example 3.');
}

/** How many products at most: a whole number from 0 to 9999. */
export function parseMostProducts(text: string, where: Where): Checked<number> {
  if (/^\s*\d{1,4}\s*$/.test(text)) return { ok: true, value: Number(text), warnings: [] };
  return refused(
    'number-of-products',
    where,
    `"${text}"`,
    'a whole number, 0 or more',
    'Write for example 2; to buy, 0 is more of what stands on the shelf only.',
  );
}

/** Money to spend, in the currency of the bench, up to a million. */
export function parseMoney(text: string, where: Where, currency = ''): Checked<number> {
  const read = readMoney(text);
  if (read.ok && otherCurrency(read.value.currency, currency))
    return refused('price-currency', where, `"${text}"`, `money in ${currency}`, `Write what it is in ${currency}.`);
  if (read.ok && read.value.amount <= 1e6) return taken(read.value.amount, read, where);
  return refusedText(text, read, 'number-option', where, 'money, 0 or more', example(where));
}

/** How long to search, in seconds. */
export function parseSeconds(text: string, where: Where): Checked<number> {
  const read = readPlainNumber(text, ['s', 'seconds']);
  if (read.ok && read.value >= 0.1 && read.value <= 1e6) return taken(read.value, read, where);
  return refusedText(text, read, 'number-option', where, 'seconds, 0.1 or more', example(where));
}

const example = ({ field = '' }: Where): string =>
  atDoor({ typed: `Write for example ${field} 30.`, page: 'Write for example 30.' });
