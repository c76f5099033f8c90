import { type Problem, warning, type Where } from '../../problem.js';
import { formatNumber } from '../format.js';

/**
 * What a reader makes of a text: the value, and the number that stood there with a decimal comma (null where none did), or why it is none.
 * A reader knows no option, file or range: whoever asks says where it stood and what is allowed there.
 */
export type Read<T> = { ok: true; value: T; comma: Comma | null } | Unread;

export interface Comma {
  written: string;
  value: number;
}

/** Why a text is no such quantity, in words for the one who wrote it. */
export interface Unread {
  ok: false;
  /** `sign`: below zero. `unclear`: a number that can be read two ways, or that no number can hold. `other`: not of this kind. */
  why: 'sign' | 'unclear' | 'other';
  found: string;
  expected: string;
  fix: string;
}

/** How a decimal comma was read, for the one who wrote it. */
export function commaNotes(comma: Comma | null, where: Where): Problem[] {
  if (comma === null) return [];
  const fix = `Read as ${formatNumber(comma.value, 15)}.`;
  return [warning('decimal-comma', where, `"${comma.written.trim()}"`, 'a decimal point', fix)];
}

export const unread = (why: Unread['why'], found: string, expected: string, fix: string): Unread => ({
  ok: false,
  why,
  found,
  expected,
  fix,
});
