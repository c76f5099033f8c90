import { check } from './check.js';
import type { LinearProgram, Row, Uncertified } from './program.js';
import { type SolveOptions, solve } from './solve.js';

/** A row that takes part in a conflict, and the end by which it does. */
export interface ConflictRow {
  id: string;
  end: 'lower' | 'upper';
}

/**
 * `irreducible`: every one of `rows` is needed, each proved by a point that keeps all the others. When an engine could
 * not settle one of those questions it is false: the rows conflict, but fewer may.
 */
export type Conflict =
  | { verdict: 'conflict'; rows: ConflictRow[]; irreducible: boolean; ray: Record<string, number> }
  | { verdict: 'none' }
  | Uncertified;

/**
 * The rows that cannot hold together, as few as can be told apart: start from those a certified Farkas ray uses, drop
 * one at a time, keep it out while the rest still conflict. Column bounds are taken as given; see `boundsAsRows`.
 * Costs and integrality play no part. Throws a ProgramError as `solve` does.
 */
export async function conflict(program: LinearProgram, options: SolveOptions = {}): Promise<Conflict> {
  check(program);
  const bare = withoutCost(program);
  const first = await solve(bare, options);
  if (first.verdict === 'uncertified') return first;
  if (first.verdict !== 'infeasible') return { verdict: 'none' };
  let { rows, ray } = await shrunk(bare, bare.rows, first.ray, options);
  const needed = new Set<string>();
  let irreducible = true;
  for (let row = rows[0]; row; row = rows.find(({ id }) => !needed.has(id))) {
    const others = rows.filter(({ id }) => id !== row!.id);
    const without = await solve({ ...bare, rows: others }, options);
    if (without.verdict === 'infeasible') {
      ({ rows, ray } = await shrunk(bare, others, without.ray, options));
    } else {
      needed.add(row.id);
      irreducible &&= without.verdict !== 'uncertified';
    }
  }
  const ends = rows.map(({ id }): ConflictRow => ({ id, end: ray[id]! > 0 ? 'lower' : 'upper' }));
  return { verdict: 'conflict', rows: ends, irreducible, ray };
}

/** The rows a ray uses, if they are seen to conflict by themselves; all of them otherwise. */
async function shrunk(program: LinearProgram, rows: Row[], ray: Record<string, number>, options: SolveOptions) {
  const used = rows.filter(({ id }) => ray[id] !== 0);
  if (used.length === rows.length) return { rows, ray };
  const again = await solve({ ...program, rows: used }, options);
  return again.verdict === 'infeasible' ? { rows: used, ray: again.ray } : { rows, ray };
}

/**
 * The same program with the column bounds as rows of their own, so that a conflict may name them and a relaxation move
 * them. `name` gives such a row its id. A lower bound of 0 stays a bound: a negative amount is no way out.
 */
export function boundsAsRows(program: LinearProgram, name: (columnId: string) => string): LinearProgram {
  const bounded = program.columns.filter(({ lower = 0, upper }) => lower > 0 || isEnd(upper));
  return {
    columns: program.columns.map((column) => {
      const { upper: _, ...rest } = column;
      return (column.lower ?? 0) > 0 ? { ...rest, lower: 0 } : rest;
    }),
    rows: [
      ...program.rows,
      ...bounded.map(({ id, lower = 0, upper }): Row => {
        const terms: Record<string, number> = Object.create(null);
        terms[id] = 1;
        return { id: name(id), ...(lower > 0 ? { lower } : {}), ...(isEnd(upper) ? { upper: upper! } : {}), terms };
      }),
    ],
  };
}

/** Costs to 0 and integers to amounts: what is asked is only whether the rows can hold together. */
export function withoutCost(program: LinearProgram): LinearProgram {
  return {
    ...program,
    columns: program.columns.map(({ integer: _, ...column }) => ({ ...column, cost: 0 })),
  };
}

export function isEnd(value: number | undefined): value is number {
  return value !== undefined && Number.isFinite(value);
}
