import type { Vertex, Vertices } from './vertex.js';
import { type Choices, DUST, type UpperRow } from './choices.js';

/** Of each item the first and the last measure that is open. */
export type Box = readonly (readonly [from: number, to: number])[];

/** What the relaxation of a box says. */
export interface Split {
  /** No choice in the box costs less; Infinity where none holds. */
  bound: number;
  /** The measures nearest to the cheapest amounts. */
  nearest: number[];
  /** Where those amounts lie farthest from any measure, by what that does to the rows; null where they are measures. */
  between: { item: number; below: number } | null;
}

/** The linear program that stands for a box of choices, narrowed to one box after the other. */
export interface Relaxed {
  vertices: Vertices;
  low: Float64Array;
  high: Float64Array;
  /** @param most a miss of more is of no interest */
  narrow: (box: Box, most: number) => void;
  read: (box: Box, vertex: Vertex) => Split;
}

/** Amounts this near, in parts of what is wanted, are the same. */
const SAME = 1e-9;
/** An item in no row still has to come to rest on a measure. */
const FELT = 1e-3;
/** A miss of more is beyond any use. */
const MOST_VIOLATION = 1e6;

/**
 * Amounts anywhere between the measures: each item as what it is over and what it is under its wanted dose, both ≥ 0 and in parts of it, each
 * costing 1; rows in their sizes. With `faint`, a last variable is the miss of all rows that may give way; it costs 1, deviations cost
 * that little. A margin is left out, which lets more in, never less.
 */
export function relaxed(
  items: readonly Choices[],
  rows: readonly UpperRow[],
  { slack = 0, faint }: { slack?: number; faint?: number },
): Relaxed {
  const n = items.length;
  const size = 2 * n + (faint === undefined ? 0 : 1);
  const per = rows.map((row) => items.map(({ wanted }, i) => (row.terms[i]! * wanted) / row.size));
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
      return left + (firm ? 0 : slack) + 2 * DUST;
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
    narrow(box, most) {
      box.forEach(([from, to], i) => {
        const { amounts, wanted } = items[i]!;
        const [least, last] = [amounts[from]! / wanted - 1, amounts[to]! / wanted - 1];
        low[2 * i] = Math.max(0, least);
        high[2 * i] = Math.max(0, last);
        low[2 * i + 1] = Math.max(0, -last);
        high[2 * i + 1] = Math.max(0, -least);
      });
      if (faint !== undefined) high[2 * n] = Math.min(most, MOST_VIOLATION);
    },
    read(box, { x, bound }) {
      let between: Split['between'] = null;
      let farthest = 0;
      const nearest = box.map(([from, to], i) => {
        const { amounts, wanted } = items[i]!;
        const amount = wanted * (1 + x[2 * i]! - x[2 * i + 1]!);
        let [below, above] = [from, to];
        while (above - below > 1) {
          const middle = (below + above) >> 1;
          if (amounts[middle]! <= amount) below = middle;
          else above = middle;
        }
        const [under, over] = [amount - amounts[below]!, amounts[above]! - amount];
        const off = Math.min(under, over) / wanted;
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
