/** The measures open to one item, from small to large amounts. */
export interface Choices {
  wanted: number;
  amounts: readonly number[];
  /** The least and most that each may deliver; the same as `amounts` where no margin is asked for. */
  lows: readonly number[];
  highs: readonly number[];
  /** What each costs: the relative deviation from `wanted`, or a little more. Lower is better. */
  costs: readonly number[];
}

/** Σ terms[i] · amount of item i ≤ upper, at the worst of each amount's range; `size` is what a miss is counted in. */
export interface UpperRow {
  terms: readonly number[];
  upper: number;
  size: number;
  /** True where the row holds whatever else gives way. */
  firm?: boolean;
}

/** A row counts as kept within this share of its size: half of what a mix is judged by, so that the two never disagree. */
export const DUST = 5e-7;

/** By how many sizes a choice misses a row; 0 or less where it holds. */
export function rowViolation(
  { terms, upper, size }: UpperRow,
  items: readonly Choices[],
  picks: readonly number[],
): number {
  let sum = 0;
  for (let i = 0; i < picks.length; i += 1) {
    const term = terms[i]!;
    if (term !== 0) sum += term * (term > 0 ? items[i]!.highs[picks[i]!]! : items[i]!.lows[picks[i]!]!);
  }
  return (sum - upper) / size - DUST;
}
