import type { Table } from './table.js';

/** Rounds of propagation: bounds that rows imply through one another settle fast in practice; more only tighten. */
const ROUNDS = 6;
/** A box is set wider by this part of the terms it comes from, so that their rounding cannot make it too narrow. */
const OUTWARD = 2 ** -48;

/**
 * Bounds that hold for every feasible point, from the rows' own arithmetic: x[j] ≤ (upper − least of the others) / a.
 * `cutoff` adds Σ cost · x ≤ atMost, for those who look only at points no dearer than one they know.
 */
export function boxes(
  table: Table,
  cutoff?: { cost: readonly number[]; atMost: number },
): { lower: number[]; upper: number[] } {
  const lower = [...table.lower];
  const upper = [...table.upper];
  const asks = table.rows.flatMap(({ lower: low, upper: high, at, by }): Ask[] => [
    ...(high === Number.POSITIVE_INFINITY ? [] : [{ sign: 1, at, by, high }]),
    ...(low === Number.NEGATIVE_INFINITY ? [] : [{ sign: -1, at, by, high: -low }]),
  ]);
  if (cutoff) {
    const at = [...cutoff.cost.keys()].filter((j) => cutoff.cost[j] !== 0);
    asks.push({ sign: 1, at, by: at.map((j) => cutoff.cost[j]!), high: cutoff.atMost });
  }
  for (let round = 0; round < ROUNDS; round += 1) {
    let moved = false;
    for (const ask of asks) if (tighten(ask, lower, upper)) moved = true;
    if (!moved) break;
  }
  return { lower, upper };
}

/** Σ sign · by · x ≤ high */
interface Ask {
  sign: number;
  at: readonly number[];
  by: readonly number[];
  high: number;
}

/** Fills in bounds that were absent and halves far ones; finer boxes serve no proof. */
function tighten({ sign, at, by, high }: Ask, lower: number[], upper: number[]): boolean {
  let least = 0;
  let size = Math.abs(high);
  let open = -1;
  for (let k = 0; k < at.length; k += 1) {
    const a = sign * by[k]!;
    const bound = a * (a > 0 ? lower[at[k]!]! : upper[at[k]!]!);
    if (bound !== Number.NEGATIVE_INFINITY) {
      least += bound;
      size += Math.abs(bound);
    } else {
      // with two that have no least, neither can be told from the other
      if (open >= 0) return false;
      open = k;
    }
  }
  let moved = false;
  const last = open < 0 ? at.length : open + 1;
  for (let k = Math.max(open, 0); k < last; k += 1) {
    const j = at[k]!;
    const a = sign * by[k]!;
    const others = open < 0 ? least - a * (a > 0 ? lower[j]! : upper[j]!) : least;
    const limit = (high - others + OUTWARD * size) / a;
    if (!Number.isFinite(limit)) continue;
    const end = a > 0 ? upper[j]! : lower[j]!;
    const isFar = a > 0 ? limit < end - Math.abs(end) / 2 : limit > end + Math.abs(end) / 2;
    if (Number.isFinite(end) && !isFar) continue;
    if (a > 0) upper[j] = limit;
    else lower[j] = limit;
    moved = true;
  }
  return moved;
}
