import type { Claim } from './engine.js';
import { greatest, type Table, type TableRow } from './table.js';

/** A table whose numbers are near 1, and the way back for what an engine says about it. */
export interface Scaled {
  table: Table;
  unscale(claim: Claim): Claim;
}

/** Where a column's natural unit is 1, less than this is what rounding leaves of 0; it would spoil a homogeneous row. */
const DUST = 1e-11;

/** A way to scale; all by powers of two, which multiply without rounding. Integer columns keep their unit. */
export type Scaling = (table: Table) => Scaled;

/**
 * In the order in which they are worth trying: the first suits rows whose ends and coefficients tell their unit, the
 * second coefficients of any size, the third programs that the other two make worse.
 */
export const SCALINGS: readonly Scaling[] = [scale, scaleGeometrically, unscaled];

/** For searches: a row scaled to its end alone may leave whole numbers with entries near an engine's tolerance. */
export const INTEGER_SCALINGS: readonly Scaling[] = [scaleGeometrically, scale, unscaled];

/** Scales rows to their bounds, columns to the rows, homogeneous rows to the columns, costs to 1. */
export function scale(table: Table): Scaled {
  const bounded = table.rows.map((row) => ownSize(row));
  const column = columnFactors(table, bounded);
  const row = table.rows.map((r, i) => bounded[i] ?? power(1 / largest(r, (j) => column[j]!)));
  return scaledBy(table, row, column, DUST);
}

/** Passes of geometric scaling; further ones move little. */
const PASSES = 6;

/**
 * Rows and columns in turn by 1/√(least · greatest coefficient), so that all coefficients draw near 1 (Fulkerson and
 * Wolfe 1962); then amounts as a whole, so that the rows' ends do.
 */
export function scaleGeometrically(table: Table): Scaled {
  const row = table.rows.map(() => 1);
  const column = table.cost.map(() => 1);
  for (let pass = 0; pass < PASSES; pass += 1) {
    const least = table.cost.map(() => Number.POSITIVE_INFINITY);
    const most = table.cost.map(() => 0);
    table.rows.forEach((r, i) => {
      const sizes = r.at.map((j, k) => Math.abs(r.by[k]!) * column[j]!);
      row[i] = middle(
        sizes.reduce((a, b) => Math.min(a, b), Number.POSITIVE_INFINITY),
        greatest(sizes),
      );
      r.at.forEach((j, k) => {
        const size = Math.abs(r.by[k]!) * row[i]!;
        least[j] = Math.min(least[j]!, size);
        most[j] = Math.max(most[j]!, size);
      });
    });
    column.forEach((_, j) => {
      if (!table.integer[j]) column[j] = middle(least[j]!, most[j]!);
    });
  }
  const amount = table.integer.some(Boolean) ? 1 : typicalEnd(table, row);
  return scaledBy(
    table,
    row.map((factor) => power(factor) / amount),
    column.map((factor) => power(factor) * amount),
    0,
  );
}

/** As it is. */
function unscaled(table: Table): Scaled {
  return { table, unscale: (claim) => claim };
}

function middle(least: number, most: number): number {
  return most > 0 ? 1 / Math.sqrt(least) / Math.sqrt(most) : 1;
}

/** The geometric mean of the rows' ends. */
function typicalEnd(table: Table, row: readonly number[]): number {
  const logs = table.rows.flatMap(({ lower, upper }, i) =>
    [lower, upper].filter((end) => end !== 0 && Number.isFinite(end)).map((end) => Math.log2(Math.abs(end) * row[i]!)),
  );
  return logs.length === 0 ? 1 : power(2 ** (logs.reduce((sum, log) => sum + log, 0) / logs.length));
}

function scaledBy(table: Table, row: number[], column: number[], dust: number): Scaled {
  const cost = power(1 / greatest(table.cost.map((c, j) => Math.abs(c * column[j]!))));
  return {
    table: {
      cost: table.cost.map((c, j) => c * column[j]! * cost),
      lower: table.lower.map((l, j) => l / column[j]!),
      upper: table.upper.map((u, j) => u / column[j]!),
      integer: table.integer,
      rows: table.rows.map((r, i) => ({
        lower: r.lower * row[i]!,
        upper: r.upper * row[i]!,
        at: r.at,
        by: r.by.map((a, k) => a * row[i]! * column[r.at[k]!]!),
      })),
    },
    unscale: (claim) => unscale(claim, row, column, cost, dust),
  };
}

/** x = column · x', y = row · y' / cost. An engine may hand back too few numbers; what is missing stays missing. */
function unscale(claim: Claim, row: number[], column: number[], cost: number, dust: number): Claim {
  const perColumn = (values: number[]) =>
    values.map((value, j) => (Math.abs(value) < dust ? 0 : value * (column[j] ?? 1)));
  const perRow = (values: number[], by: number) => values.map((value, i) => (value * (row[i] ?? 1)) / by);
  switch (claim.claim) {
    case 'optimal':
      return { ...claim, x: perColumn(claim.x), y: perRow(claim.y, cost) };
    case 'infeasible':
      return { ...claim, ray: perRow(claim.ray, 1) };
    case 'unbounded':
      return { ...claim, x: perColumn(claim.x), ray: perColumn(claim.ray) };
    case 'integer':
      return { ...claim, x: perColumn(claim.x), bound: claim.bound / cost };
    default:
      return claim;
  }
}

/** 1 / max(|lower|, |upper|) of a row with an end other than 0; undefined for a homogeneous row. */
function ownSize(row: TableRow): number | undefined {
  const size = Math.max(...[row.lower, row.upper].filter(Number.isFinite).map(Math.abs), 0);
  return size > 0 ? power(1 / size) : undefined;
}

/** Columns take their unit from the rows with bounds; failing those, from their own bounds. */
function columnFactors(table: Table, rowFactor: readonly (number | undefined)[]): number[] {
  const biggest = new Array<number>(table.cost.length).fill(0);
  table.rows.forEach((row, i) => {
    const factor = rowFactor[i];
    if (factor === undefined) return;
    row.at.forEach((j, k) => {
      biggest[j] = Math.max(biggest[j]!, Math.abs(row.by[k]! * factor));
    });
  });
  return biggest.map((size, j) => {
    if (table.integer[j]) return 1;
    if (size > 0) return power(1 / size);
    const own = Math.max(...[table.lower[j]!, table.upper[j]!].filter(Number.isFinite).map(Math.abs), 0);
    return own > 0 ? power(own) : 1;
  });
}

function largest(row: TableRow, factor: (j: number) => number): number {
  return greatest(row.at.map((j, k) => Math.abs(row.by[k]! * factor(j))));
}

/** The power of two nearest to a positive number; 1 where there is nothing to scale by. */
function power(value: number): number {
  if (!(value > 0) || !Number.isFinite(value)) return 1;
  return 2 ** Math.max(-200, Math.min(200, Math.round(Math.log2(value))));
}
