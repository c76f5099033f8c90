import type { Table, TableRow } from './table.js';

/**
 * The elastic twin of a table: no costs, and each row end may be missed at a price of 1. Always feasible; when its
 * optimum is above 0 its multipliers are a proof that the rows conflict. The added columns come last.
 */
export function elastic(table: Table): Table {
  const columns = table.cost.length;
  let added = 0;
  const rows = table.rows.map((row): TableRow => {
    const slacks = [Number.isFinite(row.lower) ? 1 : 0, Number.isFinite(row.upper) ? -1 : 0].filter(
      (sign) => sign !== 0,
    );
    return { ...row, at: [...row.at, ...slacks.map(() => columns + added++)], by: [...row.by, ...slacks] };
  });
  const more = <T>(values: readonly T[], value: T) => [...values, ...new Array<T>(added).fill(value)];
  return {
    cost: more(
      table.cost.map(() => 0),
      1,
    ),
    lower: more(table.lower, 0),
    upper: more(table.upper, Number.POSITIVE_INFINITY),
    integer: more(table.integer, false),
    rows,
  };
}

/** The lean against an engine's own tolerance of 1e-9, and how far a column may go along with it; both in scaled units. */
const LEAN = 1e-6;
const FAR = 1e4;

/**
 * The elastic twin with a small reward on every column that has no upper bound: the proof then pulls such a column down by a
 * little, instead of by 0 give or take rounding.
 */
export function leaning(table: Table): Table {
  const twin = elastic(table);
  const open = table.upper.map((upper) => upper === Number.POSITIVE_INFINITY);
  return {
    ...twin,
    cost: twin.cost.map((cost, j) => (open[j] ? -LEAN : cost)),
    upper: twin.upper.map((upper, j) => (open[j] ? Math.max(FAR, table.lower[j]! + FAR) : upper)),
  };
}

/**
 * The directions of a table: what may be added for ever without leaving a row or bound, no more than 1 of each column.
 * An optimum below 0 is a direction along which the cost falls.
 */
export function directions(table: Table): Table {
  const shut = (end: number, open: number) => (Number.isFinite(end) ? 0 : open);
  return {
    cost: table.cost,
    lower: table.lower.map((end) => shut(end, -1)),
    upper: table.upper.map((end) => shut(end, 1)),
    integer: table.integer,
    rows: table.rows.map((row) => ({
      ...row,
      lower: shut(row.lower, Number.NEGATIVE_INFINITY),
      upper: shut(row.upper, Number.POSITIVE_INFINITY),
    })),
  };
}
