import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';
import { roundDigits } from '../../units/index.js';

/** `0`, `0.1` or `10 %` as a share from 0 to 1. A bare number above 1 is refused: it may have been meant as percent. */
export function parseShare(text: string, where: Where): Checked<number> {
  const match = SHARE.exec(text);
  const share = match ? Number(match[1]) / (match[2] === '%' ? 100 : 1) : Number.NaN;
  if (share >= 0 && share <= 1) return { ok: true, value: share, warnings: [] };
  const fix =
    match && match[2] === '' ? `Write "${match[1]} %" if you mean percent.` : 'Write for example 0, "10 %" or 0.1.';
  return refused('share', where, `"${text}"`, 'a share from 0 to 1, or 0 to 100 %', fix);
}

/** `90 %` or `0.9`: the share of batches that shall keep every band, from one half to 99.9 %. */
export function parseSure(text: string, where: Where): Checked<number> {
  const match = SHARE.exec(text);
  // 99.9/100 is a little more than 0.999
  const share = match ? roundDigits(Number(match[1]) / (match[2] === '%' ? 100 : 1), 12) : Number.NaN;
  if (share >= 0.5 && share <= 0.999) return { ok: true, value: share, warnings: [] };
  const fix = share > 1 && share <= 100 ? `Write "${match![1]} %" if you mean percent.` : 'Write for example 90%.';
  return refused('sure', where, `"${text}"`, 'a share from 50 % to 99.9 %', fix);
}

const SHARE = /^\s*(\d+(?:\.\d+)?|\.\d+)\s*(%?)\s*$/;
