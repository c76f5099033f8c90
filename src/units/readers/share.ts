import { roundDigits } from '../round.js';
import { readFigure, type Writing } from './number.js';
import { type Read, unread } from './read.js';

/** A part of a whole: 0.025 for `2,5 %` and for `0,025`. */
export interface Share {
  share: number;
  /** True where it was written as a percentage. A bare number above 1 may have been meant as one. */
  percent: boolean;
}

/** Reads `2,5 %`, `25 percent`, `0,1` or `1/4`. */
export function readShare(text: string, writing: Writing = {}): Read<Share> {
  const figure = readFigure(text, writing);
  if (!figure.ok) return figure;
  const percent = /^(?:%|percent|per cent|pct)$/i.test(figure.value.words);
  if (!percent && figure.value.words !== '')
    return unread('other', `"${text.trim()}"`, 'a share', 'Write for example "10 %" or 0.1.');
  // 99.9 / 100 is a little more than 0.999
  const share = percent ? roundDigits(figure.value.value / 100, 12) : figure.value.value;
  return { ok: true, value: { share, percent }, comma: figure.comma };
}
