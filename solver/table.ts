import { check, isRecord } from './check.js';
import type { Column, LinearProgram, Row } from './program.js';

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

/**
 * The table of a program, its positions in the order of the columns and rows, without zero terms; a ProgramError for a
 * faulty program. Programs come by the hundred and are sound: each number is looked at once, and only where something
 * looks wrong does `check` go through it all again to say what.
 */
export function tabulate(program: LinearProgram): Table {
  if (!isRecord(program) || !Array.isArray(program.columns) || !Array.isArray(program.rows)) check(program);
  const position: Positions = Object.create(null);
  const table: Table = { cost: [], lower: [], upper: [], integer: [], rows: [] };
  let sound = true;
  for (const key in program) sound &&= key === 'columns' || key === 'rows';
  for (const column of program.columns) sound = addColumn(column, table, position) && sound;
  const seen = new Set<string>();
  for (const row of program.rows) {
    sound = addRow(row, table, position) && sound;
    seen.add(row?.id);
  }
  if (!sound || seen.size !== program.rows.length) check(program);
  return table;
}

/** Positions by id, without a prototype. The keys of terms are found in an object's keys sooner than in a Map's. */
type Positions = Record<string, number | undefined>;

function addColumn(column: Column, table: Table, position: Positions): boolean {
  if (!isRecord(column)) return false;
  const { id, cost } = column;
  const lower = column.lower ?? 0;
  const upper = column.upper ?? Number.POSITIVE_INFINITY;
  const isNew = typeof id === 'string' && position[id] === undefined;
  if (isNew) position[id] = table.cost.length;
  table.cost.push(cost);
  table.lower.push(lower);
  table.upper.push(upper);
  table.integer.push(column.integer ?? false);
  for (const key in column) {
    if (key !== 'id' && key !== 'cost' && key !== 'upper' && key !== 'lower' && key !== 'integer') return false;
  }
  const { integer } = column;
  return (
    isNew && Number.isFinite(cost) && inOrder(lower, upper) && (integer === undefined || typeof integer === 'boolean')
  );
}

function addRow(row: Row, table: Table, position: Positions): boolean {
  if (!isRecord(row) || !isRecord(row.terms)) return false;
  const lower = row.lower ?? Number.NEGATIVE_INFINITY;
  const upper = row.upper ?? Number.POSITIVE_INFINITY;
  let sound = typeof row.id === 'string' && inOrder(lower, upper);
  for (const key in row) sound &&= key === 'id' || key === 'lower' || key === 'upper' || key === 'terms';
  const { terms } = row;
  const at: number[] = [];
  const by: number[] = [];
  for (const id of Object.keys(terms)) {
    const coefficient = terms[id]!;
    const j = position[id];
    if (j === undefined || !Number.isFinite(coefficient)) return false;
    if (coefficient === 0) continue;
    at.push(j);
    by.push(coefficient);
  }
  table.rows.push({ lower, upper, at, by });
  return sound;
}

/** Two numbers, neither at the wrong infinity nor NaN. */
function inOrder(lower: number, upper: number): boolean {
  return (
    typeof lower === 'number' &&
    typeof upper === 'number' &&
    lower <= upper &&
    lower < Number.POSITIVE_INFINITY &&
    upper > Number.NEGATIVE_INFINITY
  );
}

/** Σ by · x over the row's terms, and Σ |by · x|: the size against which its rounding is judged. */
export function activity(row: TableRow, x: readonly number[]): { value: number; size: number } {
  const { at, by } = row;
  let value = 0;
  let size = 0;
  for (let k = 0; k < at.length; k += 1) {
    const amount = x[at[k]!]!;
    if (amount === 0) continue;
    const term = by[k]! * amount;
    value += term;
    size += Math.abs(term);
  }
  return { value, size };
}

/** Σ cost · x, and Σ |cost · x|: what a gap is judged against. */
export function costOf(table: Table, x: readonly number[]): { objective: number; paid: number } {
  let objective = 0;
  let paid = 0;
  for (let j = 0; j < table.cost.length; j += 1) {
    const term = table.cost[j]! * x[j]!;
    objective += term;
    paid += Math.abs(term);
  }
  return { objective, paid };
}

/** Σ y[i] · row[i] per column, with Σ |y[i] · a[i][j]| as its size. */
export function combine(table: Table, y: readonly number[]): { value: number[]; size: number[] } {
  const value = new Array<number>(table.cost.length).fill(0);
  const size = new Array<number>(table.cost.length).fill(0);
  for (let i = 0; i < table.rows.length; i += 1) {
    const multiplier = y[i]!;
    if (multiplier === 0) continue;
    const { at, by } = table.rows[i]!;
    for (let k = 0; k < at.length; k += 1) {
      const term = multiplier * by[k]!;
      value[at[k]!]! += term;
      size[at[k]!]! += Math.abs(term);
    }
  }
  return { value, size };
}

/** The greatest of some sizes, 0 for none; a spread into Math.max would overflow the stack on long tables. */
export function greatest(sizes: readonly number[]): number {
  let most = 0;
  for (const size of sizes) most = Math.max(most, size);
  return most;
}

/** The same table with every column continuous. */
export function relaxed(table: Table): Table {
  return { ...table, integer: table.integer.map(() => false) };
}
