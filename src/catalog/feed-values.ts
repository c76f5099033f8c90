import { type Checked, problem, type Where } from '../problem.js';
import type { Strength } from '../programme/strength.js';
import { type Litres, formatNumber, litresOf, parseAmount, readPlainNumber } from '../units/index.js';
import { describe } from './section.js';

/** Nobody feeds at five times full strength, in % or in mg/L of nitrogen: such a figure is a mistake in writing. */
const MOST_PERCENT = 500;
const MOST_NITROGEN = 2000;

/** `80 %`, or total nitrogen: `N: 90 mg/L`, `N 90 mg/L`, `N = 90 mg/L`. */
export function readStrength(text: string, where: Where): Checked<Strength> {
  const plain = text.trim();
  const nitrogen = /^N\s*[:=]?\s*(?=[\d.,])(.*)$/i.exec(plain)?.[1];
  if (nitrogen === undefined && !/%|percent|per cent/i.test(plain))
    return refused('strength', text, where, '80 % or "N: 90 mg/L"', sayWhich(plain));
  const read = parseAmount(nitrogen ?? plain, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (nitrogen === undefined && amount.kind === 'share' && amount.percent > 0 && amount.percent <= MOST_PERCENT)
    return { ...read, value: { kind: 'percent', percent: amount.percent } };
  if (
    nitrogen !== undefined &&
    amount.kind === 'mass per volume' &&
    amount.mgPerLitre > 0 &&
    amount.mgPerLitre <= MOST_NITROGEN
  )
    return { ...read, value: { kind: 'nitrogen', mgPerLitre: amount.mgPerLitre } };
  const expected = `more than 0 and at most ${MOST_PERCENT} %, or N up to ${MOST_NITROGEN} mg/L`;
  return refused('strength', plain, where, expected, 'Write for example 80 % or "N: 90 mg/L".');
}

function sayWhich(text: string): string {
  const read = readPlainNumber(text);
  const value = read.ok ? read.value : 0;
  if (!(value > 0)) return 'Write for example 80 % or "N: 90 mg/L".';
  return `Say which: ${value <= 1 ? `${formatNumber(value * 100, 12)} % of full strength?` : `${value} %, or "N: ${value} mg/L"?`}`;
}

/** A tanker holds 30,000 L; past that the unit is wrong. */
const MOST_LITRES = 30_000;
/** Litres. In less than this neither spoons nor a pen are of any use. */
const LEAST_IN_CAN = 0.1;

/** What is mixed, measured or held by a can: `4 L`, `1 US gal`; in litres. */
export const readCan = (text: string, where: Where): Checked<Litres> =>
  volume(text, where, (x) => x >= LEAST_IN_CAN, `a volume from ${1000 * LEAST_IN_CAN} mL to ${MOST_LITRES} L`);

/** What is used in a week: any volume above nothing, in litres. */
export const readWeekly = (text: string, where: Where): Checked<Litres> =>
  volume(text, where, (x) => x > 0, `a volume above 0 and up to ${MOST_LITRES} L`);

function volume(text: string, where: Where, enough: (x: Litres) => boolean, expected: string): Checked<Litres> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && amount.millilitres <= MOST_LITRES * 1000) {
    const value = litresOf(amount.millilitres);
    if (enough(value)) return { ...read, value };
  }
  return refused('volume', text, where, expected, 'Write for example 4 L or 1 US gal.');
}

const refused = <T>(code: string, text: string, where: Where, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, describe(text), expected, fix)],
});
