import { check } from './check.js';
import type { Infeasible, LinearProgram, Uncertified } from './program.js';
import { type SolveOptions, solve } from './solve.js';

/** A form's least or greatest value, a point that has it, and the rows and bounds that stop it there. */
export interface Extreme {
  /** null: no limit. */
  value: number | null;
  x: Record<string, number>;
  /** How much `value` changes per unit of a row's end; the rows with a number other than 0 are what limits it. */
  y: Record<string, number>;
}

/** The lowest and the highest that an expression can be, each with a point where it is; or why there is none. */
export type Reach = { verdict: 'reach'; lowest: Extreme; highest: Extreme } | Infeasible | Uncertified;

/**
 * The lowest and highest value of Σ form · x over all points that keep the program; its costs play no part. Throws a
 * ProgramError as `solve` does.
 */
export async function reach(
  program: LinearProgram,
  form: Readonly<Record<string, number>>,
  options: SolveOptions = {},
): Promise<Reach> {
  const lowest = await extreme(program, form, 1, options);
  if ('verdict' in lowest) return lowest;
  const highest = await extreme(program, form, -1, options);
  return 'verdict' in highest ? highest : { verdict: 'reach', lowest, highest };
}

async function extreme(
  program: LinearProgram,
  form: Readonly<Record<string, number>>,
  sign: 1 | -1,
  options: SolveOptions,
): Promise<Extreme | Infeasible | Uncertified> {
  const columns = program.columns.map((c) => ({ ...c, cost: Object.hasOwn(form, c.id) ? sign * form[c.id]! : 0 }));
  const answer = await solve({ ...program, columns }, options);
  if (answer.verdict === 'unbounded') return { value: null, x: answer.x, y: Object.create(null) };
  if (answer.verdict !== 'optimal') return answer;
  const y: Record<string, number> = Object.create(null);
  for (const id of Object.keys(answer.y)) y[id] = answer.y[id] === 0 ? 0 : sign * answer.y[id]!;
  return { value: answer.objective === 0 ? 0 : sign * answer.objective, x: answer.x, y };
}

/**
 * The costs of one column, all else as it is, at which the answer stays a best one; null: no limit on that side.
 * `cheaper` and `dearer` are answers as good as the old one at those ends and better beyond them; absent where the cost
 * then falls without end.
 */
export interface CostRange {
  verdict: 'range';
  lowest: number | null;
  highest: number | null;
  cheaper?: Record<string, number>;
  dearer?: Record<string, number>;
}

/** A point is judged the better one when it costs less by this part; engines here are good to about 1e-12. */
const BETTER = 1e-8;
/** Each step meets a new vertex nearer to the answer; more than a few are rare. */
const STEPS = 100;

/**
 * Where the cost of `column` may go before the answer `x` (from `solve`) stops being best. Exact where several answers
 * or several sets of multipliers are best, because it re-solves instead of reading one set. Linear programs only.
 * Throws a RangeError for an unknown column or integers, a ProgramError as `solve` does.
 */
export async function costRange(
  program: LinearProgram,
  column: string,
  x: Readonly<Record<string, number>>,
  options: SolveOptions = {},
): Promise<CostRange | Uncertified> {
  check(program);
  const old = program.columns.find(({ id }) => id === column);
  if (!old) throw new RangeError(`there is no column ${JSON.stringify(column)}`);
  if (program.columns.some(({ integer }) => integer))
    throw new RangeError('cost ranges are for programs without integer columns');
  const lower = await turn(program, column, x, -1, options);
  if ('verdict' in lower) return lower;
  const upper = await turn(program, column, x, 1, options);
  if ('verdict' in upper) return upper;
  return {
    verdict: 'range',
    lowest: lower.cost,
    highest: upper.cost,
    ...(lower.rival ? { cheaper: lower.rival } : {}),
    ...(upper.rival ? { dearer: upper.rival } : {}),
  };
}

/**
 * The cost at which a column that an answer leaves at its lower bound begins to be worth using; null: never.
 * @param y the multipliers of the answer: above what they make of the column the answer is proved to stay, and where one program just below
 *   that has a better one, it is the cost, to a millionth
 */
export async function entryPrice(
  program: LinearProgram,
  column: string,
  x: Readonly<Record<string, number>>,
  y: Readonly<Record<string, number>> | null = null,
  options: SolveOptions = {},
): Promise<{ verdict: 'price'; cost: number | null } | Uncertified> {
  const told = y && (await soonest(program, column, x, y, options));
  if (typeof told === 'number') return { verdict: 'price', cost: told };
  const range = await costRange(program, column, x, options);
  return range.verdict === 'range' ? { verdict: 'price', cost: range.lowest } : range;
}

/** Just below a cost. */
const BELOW = 1e-6;

/** The cost that the multipliers tell, if the answer is beaten just below it. */
async function soonest(
  program: LinearProgram,
  column: string,
  x: Readonly<Record<string, number>>,
  y: Readonly<Record<string, number>>,
  options: SolveOptions,
): Promise<number | null> {
  const told = program.rows.reduce((sum, row) => sum + (y[row.id] ?? 0) * (row.terms[column] ?? 0), 0);
  const now = program.columns.find(({ id }) => id === column)?.cost ?? 0;
  if (!(told > 0 && told <= now)) return null;
  const cost = told * (1 - BELOW);
  const columns = program.columns.map((c) => (c.id === column ? { ...c, cost } : c));
  const answer = await solve({ ...program, columns }, options);
  if (answer.verdict !== 'optimal') return null;
  const mine = columns.reduce((sum, c) => sum + c.cost * x[c.id]!, 0);
  const size = columns.reduce((sum, c) => sum + Math.abs(c.cost * x[c.id]!), 0);
  return mine - answer.objective > BETTER * Math.max(size, Math.abs(answer.objective)) ? told : null;
}

type Turn = { cost: number | null; rival?: Record<string, number> };

/**
 * Newton on a concave piecewise-linear value: begin with the point that uses the column most (cost falling) or least
 * (rising); see at which cost it draws level with the answer; solve there; a still better point draws level nearer.
 */
async function turn(
  program: LinearProgram,
  column: string,
  x: Readonly<Record<string, number>>,
  direction: 1 | -1,
  options: SolveOptions,
): Promise<Turn | Uncertified> {
  const start = program.columns.find(({ id }) => id === column)!.cost;
  const at = (cost: number) => ({
    ...program,
    columns: program.columns.map((c) => (c.id === column ? { ...c, cost } : c)),
  });
  const rest = (point: Readonly<Record<string, number>>) =>
    program.columns.reduce((sum, c) => (c.id === column ? sum : sum + c.cost * point[c.id]!), 0);
  const size = program.columns.reduce((sum, c) => sum + Math.abs(c.cost * x[c.id]!), 0);
  const only = program.columns.map((c) => ({ ...c, cost: c.id === column ? direction : 0 }));
  const far = await solve({ ...program, columns: only }, options);
  if (far.verdict === 'uncertified') return far;
  if (far.verdict === 'infeasible') throw new RangeError('x keeps no such program: its rows conflict');
  let rival = far.x;
  let ray = far.verdict === 'unbounded' ? far.ray : undefined;
  let along = false;
  let cost: number | null = null;
  for (let step = 0; step < STEPS; step += 1) {
    const amount = ray ? ray[column]! : rival[column]! - x[column]!;
    if (!(direction * amount < -BETTER * Math.max(Math.abs(x[column]!), Math.abs(rival[column]!)))) return { cost };
    along = ray !== undefined;
    const level = ray ? -rest(ray) / amount : (rest(x) - rest(rival)) / amount;
    const next = direction < 0 ? Math.min(level, start) : Math.max(level, start);
    if (cost !== null && Math.abs(next - cost) <= BETTER * Math.max(Math.abs(next), Math.abs(cost)))
      return { cost, rival };
    cost = next === 0 ? 0 : next;
    const answer = await solve(at(cost), options);
    if (answer.verdict === 'uncertified') return answer;
    if (answer.verdict === 'infeasible') throw new RangeError('x keeps no such program: its rows conflict');
    ray = answer.verdict === 'unbounded' ? answer.ray : undefined;
    if (answer.verdict === 'optimal') {
      const mine = rest(x) + cost * x[column]!;
      const better = mine - answer.objective > BETTER * Math.max(size, Math.abs(mine), Math.abs(answer.objective));
      if (!better) return along ? { cost } : { cost, rival };
    }
    rival = answer.x;
  }
  return {
    verdict: 'uncertified',
    claim: 'range',
    why: `no end found for the cost of ${JSON.stringify(column)} in ${STEPS} steps`,
  };
}
