import type { LinearProgram, Row, Verdict } from '../../solver/index.js';
import { minus, type Ratio, ratioOf, sumOfProducts, toNumber } from './dyadic.js';
import { type Exact, exact } from './exact.js';

/** What a solver says of a program; `x` in the order of the columns. */
export type Said =
  | { verdict: 'optimal'; x: number[]; objective: number; bound?: number }
  | { verdict: 'infeasible' | 'unbounded' | 'uncertified' };

/**
 * The solver's contract: a row may be missed by this part of its end (of Σ |a · x| for an end of 0), the optimum by this
 * part of its size.
 */
const TOLERANCE = 1e-6;
/** Eight units in the last place: no double is nearer to what a row asks. */
const LAST_PLACES = 2 ** -50;
/** Sums of some hundred doubles, each rounded by 1e-16. */
const ROUNDING = 1e-12;

export function said(program: LinearProgram, verdict: Verdict): Said {
  if (verdict.verdict !== 'optimal') return { verdict: verdict.verdict };
  const { objective, bound } = verdict;
  return { verdict: 'optimal', objective, bound, x: program.columns.map(({ id }) => verdict.x[id]!) };
}

/**
 * What is wrong with what was said, against the exact answer; undefined for what is right or makes no claim. Within the
 * contract an answer may miss rows by a little, and so cost less than the optimum: no less than the optimum of the
 * program whose rows are moved out by as much. Where only rows so moved leave a point, `optimal` is right as well.
 */
export function faultOf(program: LinearProgram, truth: Exact, claim: Said): string | undefined {
  return (claim.verdict === 'optimal' ? pointFault(program, claim) : undefined) ?? verdictFault(program, truth, claim);
}

/** The same without a look at whether the answer is a point of the program: for solvers with tolerances of their own. */
export function verdictFault(program: LinearProgram, truth: Exact, claim: Said): string | undefined {
  if (truth.status === 'unknown' || claim.verdict === 'uncertified') return undefined;
  if (claim.verdict === 'optimal') return costFault(program, truth, claim);
  return claim.verdict === truth.status ? undefined : `said ${claim.verdict}, is ${truth.status}`;
}

/**
 * Where the exact answer is not to be had: a claim is wrong if its own answer is no point of the program, or costs less
 * than the program with its rows moved out; or if the other one's answer, made whole, keeps every row exactly and costs
 * less, or is a point where the claim has none.
 */
export function faultAgainst(program: LinearProgram, claim: Said, other: Said): string | undefined {
  if (claim.verdict === 'optimal') {
    const fault = pointFault(program, claim) ?? costFault(program, { status: 'unknown' }, claim);
    if (fault !== undefined) return fault;
  }
  if (claim.verdict === 'uncertified' || claim.verdict === 'unbounded' || other.verdict !== 'optimal') return undefined;
  const x = other.x.map((value, j) => (program.columns[j]!.integer ? Math.round(value) : value));
  const objective = toNumber(
    sumOfProducts(
      program.columns.map(({ cost }) => cost),
      x,
    ),
  );
  if (pointFault(program, { verdict: 'optimal', x, objective }, 0) !== undefined) return undefined;
  if (claim.verdict !== 'optimal') return 'said infeasible, the other has an answer';
  const may = TOLERANCE * Math.max(Math.abs(objective), Math.abs(claim.objective));
  return claim.objective - objective > may ? `costs ${claim.objective}, the other's answer ${objective}` : undefined;
}

type Answer = Extract<Said, { verdict: 'optimal' }>;

/** An answer that is no point of the program, by exact arithmetic; with a `tolerance` of 0 no row may be missed at all. */
function pointFault({ columns, rows }: LinearProgram, { x, objective }: Answer, tolerance = 1): string | undefined {
  for (const [j, { id, lower = 0, upper = Number.POSITIVE_INFINITY, integer }] of columns.entries()) {
    const value = x[j]!;
    if (!(value >= lower && value <= upper)) return `column ${id} is ${value}, out of its bounds`;
    if (integer && !Number.isInteger(value)) return `column ${id} is ${value}, not whole`;
  }
  const value = amounts(columns, x);
  for (const row of rows) {
    const { activity, size } = reckon(row, value);
    for (const [side, direction] of [
      ['lower', -1],
      ['upper', 1],
    ] as const) {
      const end = row[side];
      if (end === undefined || !Number.isFinite(end)) continue;
      const over = direction * toNumber(minus(activity, ratioOf(end)));
      if (over > tolerance * allowance(end, size) * (1 + ROUNDING))
        return `row ${row.id} is missed by ${over} at ${end}`;
    }
  }
  const costs = columns.map(({ cost }) => cost);
  const off = Math.abs(toNumber(minus(sumOfProducts(costs, x), ratioOf(objective))));
  return off <= ROUNDING * costSize(costs, x) ? undefined : `its costs do not add up to ${objective}`;
}

function costFault(program: LinearProgram, truth: Exact, claim: Answer): string | undefined {
  const costs = program.columns.map(({ cost }) => cost);
  const may = (optimum: number) =>
    TOLERANCE * Math.max(Math.abs(optimum), Math.abs(claim.objective), costSize(costs, claim.x)) * (1 + ROUNDING);
  const from = (optimum: Ratio) => ({
    above: toNumber(minus(ratioOf(claim.objective), optimum)),
    may: may(toNumber(optimum)),
  });
  if (truth.status === 'optimal') {
    const { above, may } = from(truth.objective);
    if (above > may) return `costs ${claim.objective}, the optimum is ${toNumber(truth.objective)}`;
    if (claim.bound !== undefined) {
      const over = toNumber(minus(ratioOf(claim.bound), truth.objective));
      if (over > may) return `said nothing costs less than ${claim.bound}, ${toNumber(truth.objective)} does`;
    }
    if (above >= -may) return undefined;
  }
  const loose = exact(relaxed(program, claim.x));
  if (loose.status === 'unknown') return undefined;
  if (loose.status !== 'optimal') return `said optimal, is ${truth.status} and within the tolerance ${loose.status}`;
  if (truth.status === 'unbounded') return 'said optimal, is unbounded';
  const { above, may: room } = from(loose.objective);
  if (above < -room) return `costs ${claim.objective}, even with the tolerance it is ${toNumber(loose.objective)}`;
  return undefined;
}

/** The program with the ends of its rows moved out by what the contract allows at an answer. */
function relaxed(program: LinearProgram, x: readonly number[]): LinearProgram {
  const value = amounts(program.columns, x);
  const rows = program.rows.map((row) => {
    const { size } = reckon(row, value);
    const moved = (end: number | undefined, direction: number) =>
      end === undefined || !Number.isFinite(end) ? end : end + direction * allowance(end, size);
    const [lower, upper] = [moved(row.lower, -1), moved(row.upper, 1)];
    return { ...row, ...(lower === undefined ? {} : { lower }), ...(upper === undefined ? {} : { upper }) };
  });
  return { ...program, rows };
}

/** How far a row may be missed: a part of its end, and the last places of its terms. */
function allowance(end: number, size: number): number {
  return TOLERANCE * (end === 0 ? size : Math.abs(end)) + LAST_PLACES * size;
}

function reckon(row: Row, value: ReadonlyMap<string, number>): { activity: Ratio; size: number } {
  const terms = Object.entries(row.terms);
  const [by, x] = [terms.map(([, a]) => a), terms.map(([id]) => value.get(id)!)];
  return { activity: sumOfProducts(by, x), size: costSize(by, x) };
}

function costSize(by: readonly number[], x: readonly number[]): number {
  return by.reduce((sum, a, k) => sum + Math.abs(a * x[k]!), 0);
}

function amounts(columns: LinearProgram['columns'], x: readonly number[]): Map<string, number> {
  return new Map(columns.map(({ id }, j) => [id, x[j]!]));
}
