/** One item of a program of levels: it takes exactly one of them. Arrays run alike, from the smallest level to the largest. */
export interface Item {
  /** > 0; deviations are counted in it. */
  target: number;
  levels: readonly number[];
  /** The least and the most that each level may turn out to be; the same as `levels` where they are exact. */
  lows: readonly number[];
  highs: readonly number[];
  /** What each level costs, at least its relative deviation from `target`. */
  costs: readonly number[];
}

/**
 * Σ terms[i] · level of item i ≤ upper, at the worst end of each level's range. `size` > 0 is what a violation is counted in, so that rows of
 * different units compare.
 */
export interface UpperRow {
  terms: readonly number[];
  upper: number;
  size: number;
  /** True where the row holds whatever else gives way. */
  firm?: boolean;
}

/** A row counts as kept within this share of its size: half of what an answer is judged by, so that the two never disagree. */
export const TOLERANCE = 5e-7;

/**
 * By how many sizes a choice violates a row; 0 or less where it holds.
 * @param picks index of the level that each item takes
 */
export function rowViolation(
  { terms, upper, size }: UpperRow,
  items: readonly Item[],
  picks: readonly number[],
): number {
  let sum = 0;
  for (let i = 0; i < picks.length; i += 1) {
    const term = terms[i]!;
    if (term !== 0) sum += term * (term > 0 ? items[i]!.highs[picks[i]!]! : items[i]!.lows[picks[i]!]!);
  }
  return (sum - upper) / size - TOLERANCE;
}
