import type { Found, UpperRow } from '../../solver/small/index.js';
import { violationsIn, search } from './frame.js';
import type { Levelled } from './levelled.js';

/**
 * Limits that a choice violates are held one after the other, and stay held where doses are left: excesses first, which are in the pot, then
 * rules, then shortages, which the next feed mends. In the end none of the violated limits can be kept as well, the held ones kept.
 * @param allowed of each row, the violation with which it counts as kept
 */
export function restored({ frame, allowed: within }: Levelled, found: Found, allowed: readonly number[]): Found {
  const tried = new Set<number>();
  let [rows, best] = [frame.rows, found];
  for (;;) {
    const violations = violationsIn({ ...frame, rows }, best.picks!);
    const lost = rows
      .map((row, r) => ({ row, r, over: violations[r]! - allowed[r]! }))
      .filter(({ row, r, over }) => !row.firm && over > 0 && !tried.has(r))
      .sort((a, b) => rankOf(a.row) - rankOf(b.row) || b.over - a.over)[0];
    if (!lost) return best;
    tried.add(lost.r);
    const upper = lost.row.upper + allowed[lost.r]! * lost.row.size;
    const held = rows.map((row, r) => (r === lost.r ? { ...row, upper, firm: true } : row));
    const next = search({ ...frame, rows: held }, { allowed: within });
    if (next.picks) [rows, best] = [held, next];
  }
}

/** 0: a cap, 1: a rule with items on both sides, 2: a minimum. */
function rankOf({ terms }: UpperRow): number {
  if (terms.every((term) => term >= 0)) return 0;
  return terms.every((term) => term <= 0) ? 2 : 1;
}
