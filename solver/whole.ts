import { feasible, TOLERANCE } from './certificate.js';
import { costOf, relaxed, type Table } from './table.js';
import type { Finding, Judge } from './verdict.js';

/** An integer off by this much was meant to be whole: engines round no better. What is used is the whole number. */
const WHOLE = 1e-6;

/** Beside nodes and pivots, for a search that counts neither while it turns over huge whole numbers. */
export const LONGEST_SECONDS = 60;

export interface Refusal {
  why: string;
  /** Another scaling would say the same. */
  final?: boolean;
}

export interface Answer {
  x: number[];
  violation: number;
}

/** Rounds the integers to whole numbers, lets the other columns follow, and checks the rows. */
export async function settle(table: Table, claimed: readonly number[], judge: Judge): Promise<Answer | Refusal> {
  if (claimed.length !== table.cost.length) return { why: 'not one number for each column' };
  const fixed = claimed.map((value, j) => (table.integer[j] ? Math.round(value) : undefined));
  if (claimed.some((value, j) => table.integer[j] && !(Math.abs(value - fixed[j]!) <= WHOLE)))
    return { why: 'an integer is not whole' };
  if (fixed.some((value, j) => value !== undefined && (value < table.lower[j]! || value > table.upper[j]!))) {
    return { why: 'an integer lies outside its bounds' };
  }
  const direct = feasible(
    table,
    claimed.map((value, j) => fixed[j] ?? value),
  );
  if (table.integer.every(Boolean)) return direct;
  const rest = await judge({
    ...relaxed(table),
    lower: table.lower.map((lower, j) => fixed[j] ?? lower),
    upper: table.upper.map((upper, j) => fixed[j] ?? upper),
  });
  return rest.verdict === 'optimal' ? { x: rest.x, violation: rest.violation } : direct;
}

export function judged(
  table: Table,
  { x, violation }: Answer,
  claimed: number,
  engine: string,
  ended: boolean,
): Finding | Refusal {
  const { objective, paid } = costOf(table, x);
  if (claimed - objective > TOLERANCE * Math.max(Math.abs(objective), Math.abs(claimed), paid))
    return { why: `said that nothing costs less than ${claimed}, its answer costs ${objective}` };
  const bound = Math.min(claimed, objective);
  const gap = gapOf(objective, bound, paid);
  const best = { objective, bound, x, violation, gap, engine };
  if (gap <= TOLERANCE) return { verdict: 'optimal', ...best, y: [], boundBy: 'search' };
  return {
    verdict: 'uncertified',
    claim: 'integer',
    why: `${engine}: ${ended ? 'its bound lies below its answer' : 'the search did not end'}; the answer may not be the best`,
    ...(ended ? {} : { unfinished: true }),
    best,
  };
}

export function gapOf(objective: number, bound: number, paid: number): number {
  return objective === bound ? 0 : (objective - bound) / Math.max(Math.abs(objective), Math.abs(bound), paid);
}
