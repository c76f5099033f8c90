import type { LinearProgram } from './program.js';

/**
 * A program with positions instead of ids: what engines and the certificate work on, so that no id (`__proto__`,
 * `result`, the name of the objective) can mean anything to an engine. Absent ends are ±Infinity.
 */
export interface Table {
  cost: number[];
  lower: number[];
  upper: number[];
  integer: boolean[];
  rows: TableRow[];
}

/** lower ≤ Σ by[k] · x[at[k]] ≤ upper */
export interface TableRow {
  lower: number;
  upper: number;
  at: number[];
  by: number[];
}

/** The table of a checked program: positions follow the order of its columns and rows; zero terms are dropped. */
export function tabulate(program: LinearProgram): Table {
  const position = new Map(program.columns.map((column, j) => [column.id, j]));
  return {
    cost: program.columns.map((column) => column.cost),
    lower: program.columns.map((column) => column.lower ?? 0),
    upper: program.columns.map((column) => column.upper ?? Number.POSITIVE_INFINITY),
    integer: program.columns.map((column) => column.integer ?? false),
    rows: program.rows.map((row) => {
      const terms = Object.entries(row.terms).filter(([, coefficient]) => coefficient !== 0);
      return {
        lower: row.lower ?? Number.NEGATIVE_INFINITY,
        upper: row.upper ?? Number.POSITIVE_INFINITY,
        at: terms.map(([id]) => position.get(id)!),
        by: terms.map(([, coefficient]) => coefficient),
      };
    }),
  };
}

/** Σ by · x over the row's terms, and Σ |by · x|: the size against which its rounding is judged. */
export function activity(row: TableRow, x: readonly number[]): { value: number; size: number } {
  let value = 0;
  let size = 0;
  for (let k = 0; k < row.at.length; k += 1) {
    const term = row.by[k]! * x[row.at[k]!]!;
    value += term;
    size += Math.abs(term);
  }
  return { value, size };
}

/** Σ y[i] · row[i] per column, with Σ |y[i] · a[i][j]| as its size. */
export function combine(table: Table, y: readonly number[]): { value: number[]; size: number[] } {
  const value = new Array<number>(table.cost.length).fill(0);
  const size = new Array<number>(table.cost.length).fill(0);
  table.rows.forEach((row, i) => {
    const multiplier = y[i]!;
    if (multiplier === 0) return;
    for (let k = 0; k < row.at.length; k += 1) {
      const term = multiplier * row.by[k]!;
      value[row.at[k]!]! += term;
      size[row.at[k]!]! += Math.abs(term);
    }
  });
  return { value, size };
}

/** The greatest of some sizes, 0 for none; a spread into Math.max would overflow the stack on long tables. */
export function greatest(sizes: readonly number[]): number {
  return sizes.reduce((most, size) => Math.max(most, size), 0);
}

/** The same table with every column continuous. */
export function relaxed(table: Table): Table {
  return { ...table, integer: table.integer.map(() => false) };
}
