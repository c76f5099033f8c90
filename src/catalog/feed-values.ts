import { type Checked, problem, type Where } from '../problem.js';
import type { Strength } from '../programme/strength.js';
import {
  type Bounded,
  type Litres,
  formatNumber,
  isWithin,
  litresOf,
  parseAmount,
  rangeText,
  readPlainNumber,
} from '../units/index.js';
import { describe } from './section.js';

/** `80 %`, or total nitrogen: `N: 90 mg/L`, `N 90 mg/L`, `N = 90 mg/L`. */
export function readStrength(text: string, where: Where): Checked<Strength> {
  const plain = text.trim();
  const nitrogen = /^N\s*[:=]?\s*(?=[\d.,])(.*)$/i.exec(plain)?.[1];
  if (nitrogen === undefined && !/%|percent|per cent/i.test(plain))
    return refused('strength', text, where, '80 % or "N: 90 mg/L"', sayWhich(plain));
  const read = parseAmount(nitrogen ?? plain, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (nitrogen === undefined && amount.kind === 'share' && isWithin('strengthPercent', amount.percent))
    return { ...read, value: { kind: 'percent', percent: amount.percent } };
  if (nitrogen !== undefined && amount.kind === 'mass per volume' && isWithin('strengthNitrogen', amount.mgPerLitre))
    return { ...read, value: { kind: 'nitrogen', mgPerLitre: amount.mgPerLitre } };
  const expected = `a strength ${rangeText('strengthPercent')}, or N ${rangeText('strengthNitrogen')}`;
  return refused('strength', plain, where, expected, 'Write for example 80 % or "N: 90 mg/L".');
}

function sayWhich(text: string): string {
  const read = readPlainNumber(text);
  const value = read.ok ? read.value : 0;
  if (!(value > 0)) return 'Write for example 80 % or "N: 90 mg/L".';
  return `Say which: ${value <= 1 ? `${formatNumber(value * 100, 12)} % of full strength?` : `${value} %, or "N: ${value} mg/L"?`}`;
}

/** What is mixed, measured or held by a can: `4 L`, `1 US gal`; in litres. */
export const readCan = (text: string, where: Where): Checked<Litres> => volume(text, where, 'can');

/** What is used in a week, in litres. */
export const readWeekly = (text: string, where: Where): Checked<Litres> => volume(text, where, 'weekly');

/** What one pot holds when it is empty, in litres. */
export const readPot = (text: string, where: Where): Checked<Litres> => volume(text, where, 'pot');

function volume(text: string, where: Where, name: Bounded): Checked<Litres> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  const amount = read.value;
  if (amount.kind === 'volume' && isWithin(name, litresOf(amount.millilitres)))
    return { ...read, value: litresOf(amount.millilitres) };
  return refused('volume', text, where, `a volume ${rangeText(name)}`, 'Write for example 4 L or 1 US gal.');
}

const refused = <T>(code: string, text: string, where: Where, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, describe(text), expected, fix)],
});
