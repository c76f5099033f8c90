import { readFigure, spelledOut, type Writing } from './number.js';
import { type Read, unread } from './read.js';

export interface Money {
  amount: number;
  /** The currency beside it as it is written (`EUR`, `€`), null where none is. */
  currency: string | null;
}

/** Reads `12,50`, `12.50 EUR`, `€ 12.50` or `USD 3`. */
export function readMoney(text: string, writing: Writing = {}): Read<Money> {
  const plain = spelledOut(text);
  const before = CURRENCY_FIRST.exec(plain)?.[0] ?? '';
  const figure = readFigure(plain.slice(before.length), writing);
  if (!figure.ok) return { ...figure, found: figure.why === 'unclear' ? figure.found : `"${text.trim()}"` };
  const named = [before.trim(), figure.value.words].filter((word) => word !== '');
  const currency = named[0];
  if (named.length > 1 || (currency !== undefined && !CURRENCY.test(currency)))
    return unread('other', `"${text.trim()}"`, 'an amount of money', 'Write for example 12.50 or 12.50 EUR.');
  return { ok: true, value: { amount: figure.value.value, currency: currency ?? null }, comma: figure.comma };
}

/** Whether money is certainly in another currency than `currency` (empty: none is known); $ may be the sign of many. */
export function otherCurrency(written: string | null | undefined, currency: string): boolean {
  const [a, b] = [written ?? '', currency].map((name) => CODE_OF.get(name.trim()) ?? name.trim().toUpperCase());
  return a !== b && CODE.test(a!) && CODE.test(b!);
}

const CODE = /^[A-Z]{3}$/;
const CODE_OF: ReadonlyMap<string, string> = new Map([
  ['€', 'EUR'],
  ['£', 'GBP'],
  ['₹', 'INR'],
]);

/** A sign such as € or $, or a code of three letters as ISO 4217 has them. */
const CURRENCY = /^(?:\p{Sc}|[A-Z]{3})$/u;
const CURRENCY_FIRST = /^(?:\p{Sc}|[A-Z]{3}(?![A-Za-z]))\s*/u;
