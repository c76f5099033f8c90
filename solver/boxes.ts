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
  const rows = table.rows.map(({ lower: low, upper: high, at, by }) => ({ low, high, at, by }));
  if (cutoff) {
    const at = [...cutoff.cost.keys()].filter((j) => cutoff.cost[j] !== 0);
    rows.push({ low: Number.NEGATIVE_INFINITY, high: cutoff.atMost, at, by: at.map((j) => cutoff.cost[j]!) });
  }
  for (let round = 0; round < ROUNDS; round += 1) {
    let moved = false;
    for (const { low, high, at, by } of rows) {
      if (high !== Number.POSITIVE_INFINITY && tighten(at, by, high, lower, upper)) moved = true;
      if (
        low !== Number.NEGATIVE_INFINITY &&
        tighten(
          at,
          by.map((a) => -a),
          -low,
          lower,
          upper,
        )
      )
        moved = true;
    }
    if (!moved) break;
  }
  return { lower, upper };
}

/** Uses Σ by · x ≤ high. Fills in bounds that were absent and halves far ones; finer boxes serve no proof. */
function tighten(
  at: readonly number[],
  by: readonly number[],
  high: number,
  lower: number[],
  upper: number[],
): boolean {
  let least = 0;
  let size = Math.abs(high);
  let open = 0;
  at.forEach((j, k) => {
    const bound = by[k]! > 0 ? by[k]! * lower[j]! : by[k]! * upper[j]!;
    if (bound === Number.NEGATIVE_INFINITY) open += 1;
    else {
      least += bound;
      size += Math.abs(bound);
    }
  });
  if (open > 1) return false;
  let moved = false;
  at.forEach((j, k) => {
    const a = by[k]!;
    const own = a > 0 ? a * lower[j]! : a * upper[j]!;
    if (open === 1 && own !== Number.NEGATIVE_INFINITY) return;
    const limit = (high - (open === 1 ? least : least - own) + OUTWARD * size) / a;
    if (!Number.isFinite(limit)) return;
    if (a > 0 && (upper[j] === Number.POSITIVE_INFINITY || limit < upper[j]! - Math.abs(upper[j]!) / 2)) {
      upper[j] = limit;
      moved = true;
    }
    if (a < 0 && (lower[j] === Number.NEGATIVE_INFINITY || limit > lower[j]! + Math.abs(lower[j]!) / 2)) {
      lower[j] = limit;
      moved = true;
    }
  });
  return moved;
}
