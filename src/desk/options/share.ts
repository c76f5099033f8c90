import type { Checked, Where } from '../../problem.js';
import { formatNumber, readShare } from '../../units/index.js';
import { refusedText, taken } from './refused.js';

/** `0`, `0.1` or `10 %` as a share from 0 to 1. A bare number above 1 is refused: it may have been meant as percent. */
export function parseShare(text: string, where: Where): Checked<number> {
  const read = readShare(text);
  if (read.ok && read.value.share <= 1) return taken(read.value.share, read, where);
  const fix = read.ok && !read.value.percent ? asPercent(read.value.share) : 'Write for example 0, "10 %" or 0.1.';
  return refusedText(text, read, 'share', where, 'a share from 0 to 1, or 0 to 100 %', fix);
}

/** `90 %` or `0.9`: the share of batches that shall keep every band, from one half to 99.9 %. */
export function parseSure(text: string, where: Where): Checked<number> {
  const read = readShare(text);
  if (read.ok && read.value.share >= 0.5 && read.value.share <= 0.999) return taken(read.value.share, read, where);
  const meant = read.ok && !read.value.percent && read.value.share > 1 && read.value.share <= 100;
  const fix = meant ? asPercent(read.value.share) : 'Write for example 90%.';
  return refusedText(text, read, 'sure', where, 'a share from 50 % to 99.9 %', fix);
}

/** `20 %` or `0.2`: how far from its aim a main element may be, from nothing to ten times. */
export function parseNear(text: string, where: Where): Checked<number> {
  const read = readShare(text);
  if (read.ok && (read.value.percent || read.value.share <= 1) && read.value.share <= 10)
    return taken(read.value.share, read, where);
  const meant = read.ok && !read.value.percent;
  const fix = meant ? asPercent(read.value.share) : 'Write for example 20%.';
  return refusedText(text, read, 'near', where, 'a share from 0 to 1000 %', fix);
}

const asPercent = (number: number): string => `Write "${formatNumber(number, 12)} %" if you mean percent.`;
