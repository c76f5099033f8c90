import { check } from './check.js';
import { isEnd, withoutCost } from './conflict.js';
import type { Column, LinearProgram, Row, Uncertified } from './program.js';
import { type SolveOptions, solve } from './solve.js';

/** One end of a row moved outward: `to` is the new end, `by` how far it moved (> 0). */
export interface Move {
  row: string;
  end: 'lower' | 'upper';
  by: number;
  to: number;
}

/** `total` = Σ weight · by; nothing smaller will do (`bound`). `x` keeps the program with its ends so moved. */
export type Relaxation =
  | { verdict: 'relaxed'; total: number; bound: number; moves: Move[]; x: Record<string, number> }
  /** No move of the allowed rows, however far, is enough. */
  | { verdict: 'impossible' }
  | Uncertified;

/**
 * The cheapest way to make room: the ends of the rows named in `weights` may move outward, at weight · distance; other
 * rows and the column bounds stay. Use 1/|end| as a weight to count every row in parts of itself. `moves` is empty when
 * nothing needs to move. Throws a ProgramError as `solve` does, and a RangeError for a weight that is not above 0.
 */
export async function leastRelaxation(
  program: LinearProgram,
  weights: ReadonlyMap<string, number>,
  options: SolveOptions = {},
): Promise<Relaxation> {
  check(program);
  for (const [id, weight] of weights) {
    if (!(weight > 0 && Number.isFinite(weight)))
      throw new RangeError(`the weight of row ${JSON.stringify(id)} is ${weight}; it must be above 0`);
    if (!program.rows.some((row) => row.id === id))
      throw new RangeError(`there is no row ${JSON.stringify(id)} to move`);
  }
  const { elastic, slacks } = elasticProgram(withoutCost(program), weights);
  const answer = await solve(elastic, options);
  if (answer.verdict === 'uncertified') return answer;
  if (answer.verdict !== 'optimal') return { verdict: 'impossible' };
  const moves = slacks.flatMap(({ column, row, end }): Move[] => {
    const by = answer.x[column]!;
    if (by === 0) return [];
    return [{ row: row.id, end, by, to: end === 'lower' ? row.lower! - by : row.upper! + by }];
  });
  const x: Record<string, number> = Object.create(null);
  for (const { id } of program.columns) x[id] = answer.x[`x${id}`]!;
  return { verdict: 'relaxed', total: answer.objective, bound: answer.bound, moves, x };
}

/** For each row of `rows`: how far it alone would have to move, and the point it leads to. Order as given. */
export async function singleRelaxations(
  program: LinearProgram,
  rows: readonly string[],
  options: SolveOptions = {},
): Promise<{ row: string; relaxation: Relaxation }[]> {
  const answers: { row: string; relaxation: Relaxation }[] = [];
  for (const row of rows) {
    answers.push({ row, relaxation: await leastRelaxation(program, new Map([[row, 1]]), options) });
  }
  return answers;
}

/** Columns are renamed `x…`, so that a slack's name cannot be a column's. */
function elasticProgram(program: LinearProgram, weights: ReadonlyMap<string, number>) {
  const slacks: { column: string; row: Row; end: 'lower' | 'upper' }[] = [];
  const added: Column[] = [];
  const rows = program.rows.map((row, i): Row => {
    const terms: Record<string, number> = Object.create(null);
    for (const [id, by] of Object.entries(row.terms)) terms[`x${id}`] = by;
    const weight = weights.get(row.id);
    for (const end of weight === undefined ? [] : (['lower', 'upper'] as const)) {
      if (!isEnd(row[end])) continue;
      const column = `s${i}${end}`;
      slacks.push({ column, row, end });
      added.push({ id: column, cost: weight! });
      terms[column] = end === 'lower' ? 1 : -1;
    }
    return { ...row, terms };
  });
  const columns = [...program.columns.map((column) => ({ ...column, id: `x${column.id}` })), ...added];
  return { elastic: { columns, rows }, slacks };
}
