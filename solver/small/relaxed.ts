import { type Item, TOLERANCE, type UpperRow } from './items.js';
import type { Vertex, Vertices } from './vertex.js';

/** Of each item the first and the last level that is open. */
export type Box = readonly (readonly [from: number, to: number])[];

/** What the relaxation of a box says. */
export interface Relaxation {
  /** No choice in the box costs less; Infinity where none holds. */
  bound: number;
  /** The levels nearest to the vertex. */
  nearest: number[];
  /** Where the vertex lies farthest from any level, by what that does to the rows; null where it lies on levels. */
  between: { item: number; below: number } | null;
}

/** The linear program that stands for a box of choices, restricted to one box after the other. */
export interface Relaxed {
  vertices: Vertices;
  low: Float64Array;
  high: Float64Array;
  /** @param most a greater violation is of no interest */
  restrict: (box: Box, most: number) => void;
  read: (box: Box, vertex: Vertex) => Relaxation;
}

/** Amounts this near, in parts of the target, are the same. */
const SAME = 1e-9;
/** An item in no row still has to come to rest on a level. */
const FELT = 1e-3;
/** A greater violation is beyond any use. */
const MOST_VIOLATION = 1e6;

/**
 * Amounts anywhere between the levels: each item as what it is over and what it is under its target, both ≥ 0 and in parts of it, each
 * costing 1; rows in their sizes, a violation of `allowed` open to those that are not firm. With `faint`, a last variable is the violation of all
 * rows that are not firm; it costs 1, deviations cost that little. The range of a level is left out, which lets more in, never less.
 */
export function relaxed(
  items: readonly Item[],
  rows: readonly UpperRow[],
  { allowed = 0, faint }: { allowed?: number; faint?: number },
): Relaxed {
  const n = items.length;
  const size = 2 * n + (faint === undefined ? 0 : 1);
  const per = rows.map((row) => items.map(({ target }, i) => (row.terms[i]! * target) / row.size));
  const vertices: Vertices = {
    rows: per.map((own, r) => {
      const terms = new Float64Array(size);
      own.forEach((term, i) => {
        terms[2 * i] = term;
        terms[2 * i + 1] = -term;
      });
      if (faint !== undefined && !rows[r]!.firm) terms[2 * n] = -1;
      return terms;
    }),
    upper: Float64Array.from(rows, ({ upper, size: unit, firm }, r) => {
      const left = upper / unit - per[r]!.reduce((sum, term) => sum + term, 0);
      return left + (firm ? 0 : allowed) + 2 * TOLERANCE;
    }),
    costs: Float64Array.from({ length: size }, (_, v) => (v === 2 * n ? 1 : (faint ?? 1))),
  };
  const weights = items.map((_, i) => Math.max(FELT, ...per.map((own) => Math.abs(own[i]!))));
  const low = new Float64Array(size);
  const high = new Float64Array(size);
  return {
    vertices,
    low,
    high,
    restrict(box, most) {
      box.forEach(([from, to], i) => {
        const { levels, target } = items[i]!;
        const [least, last] = [levels[from]! / target - 1, levels[to]! / target - 1];
        low[2 * i] = Math.max(0, least);
        high[2 * i] = Math.max(0, last);
        low[2 * i + 1] = Math.max(0, -last);
        high[2 * i + 1] = Math.max(0, -least);
      });
      if (faint !== undefined) high[2 * n] = Math.min(most, MOST_VIOLATION);
    },
    read(box, { x, bound }) {
      let between: Relaxation['between'] = null;
      let farthest = 0;
      const nearest = box.map(([from, to], i) => {
        const { levels, target } = items[i]!;
        const amount = target * (1 + x[2 * i]! - x[2 * i + 1]!);
        let [below, above] = [from, to];
        while (above - below > 1) {
          const middle = (below + above) >> 1;
          if (levels[middle]! <= amount) below = middle;
          else above = middle;
        }
        const [under, over] = [amount - levels[below]!, levels[above]! - amount];
        const off = Math.min(under, over) / target;
        if (below < above && off > SAME && off * weights[i]! > farthest) {
          farthest = off * weights[i]!;
          between = { item: i, below };
        }
        return under <= over ? below : above;
      });
      return { bound, nearest, between };
    },
  };
}
