import type { DosedBy } from '../../blend/best-hands.js';
import type { Checked, Where } from '../../problem.js';
import { refused } from './refused.js';

/** `pen` or `measure`. */
export function parseDosedBy(text: string, where: Where): Checked<DosedBy> {
  const word = text.trim().toLowerCase();
  if (word === 'pen' || word === 'measure') return { ok: true, value: word, warnings: [] };
  return refused(
    'dosed-by',
    where,
    `"${text}"`,
    'pen or measure',
    'Leave it out to use the pen only where nothing else is fine enough.',
  );
}
