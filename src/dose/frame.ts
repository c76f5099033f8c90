import {
  type Found,
  type Item,
  rowViolation,
  searchLevels,
  type SearchOptions,
  TOLERANCE,
  type UpperRow,
} from '../../solver/small/index.js';
import type { DoseLimits } from './limits.js';

/** A choice of measures as a program of levels: what it is judged by. */
export interface Frame extends Pick<DoseLimits, 'cap' | 'ecOf'> {
  items: readonly Item[];
  /** Where there is an EC cap, its linearisation is the last of them. */
  rows: readonly UpperRow[];
}

/** So many conductivities are worked out before the search is given up as not ended. */
const MOST_ECS = 400;

/** The search over the rows, with EC by the full model on whole items. */
export function search({ rows, cap, ecOf, items }: Frame, options: SearchOptions): Found {
  if (cap === null) return searchLevels(items, rows, options);
  let left = MOST_ECS;
  const violationOf = (picks: readonly number[]): number => {
    left -= 1;
    if (left < 0) return Number.POSITIVE_INFINITY;
    const over = ecViolation({ cap, ecOf, items }, picks);
    return over > 0 && rows.at(-1)!.firm ? Number.POSITIVE_INFINITY : over;
  };
  const found = searchLevels(items, rows, { ...options, violationOf });
  return left < 0 ? { ...found, complete: false } : found;
}

/** By how much each row is violated, in its size; 0 or less where it holds. The cap by the full model. */
export function violationsIn({ rows, cap, ecOf, items }: Frame, picks: readonly number[]): number[] {
  return rows.map((row, r) =>
    cap !== null && r === rows.length - 1 ? ecViolation({ cap, ecOf, items }, picks) : rowViolation(row, items, picks),
  );
}

const ecViolation = ({ cap, ecOf, items }: Omit<Frame, 'rows'>, picks: readonly number[]): number =>
  ecOf(picks.map((k, i) => items[i]!.highs[k]!)) / cap! - 1 - TOLERANCE;
