import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** A day as `2026-11-25`. */
export function parseDate(text: string, where: Where): Checked<string> {
  const match = /^\s*(\d{4})-(\d{2})-(\d{2})\s*$/.exec(text);
  const [year, month, day] = match ? match.slice(1).map(Number) : [0, 0, 0];
  const most = [31, leap(year!) ? 29 : 28, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31][month! - 1] ?? 0;
  if (match && day! >= 1 && day! <= most) return { ok: true, value: text.trim(), warnings: [] };
  return refused('date', where, `"${text}"`, 'a day as YEAR-MONTH-DAY', 'Write for example 2026-11-25.');
}

const leap = (year: number): boolean => year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
