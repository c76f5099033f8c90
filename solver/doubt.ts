import { TOLERANCE } from './certificate.js';
import { gcd, wholeRow } from './divisor.js';
import { ask, type Engine, type EngineLimits } from './engine.js';
import { INTEGER_SCALINGS } from './scale.js';
import { activity, costOf, type Table } from './table.js';
import type { Finding, Judge } from './verdict.js';
import { gapOf, LONGEST_SECONDS, settle } from './whole.js';

type Found = Extract<Finding, { verdict: 'optimal' }>;

/**
 * Engines work to 1e-9 of their scaled numbers; a whole-number row that runs to this many of its units leaves a
 * thousand times that between one whole number and the next. Of 440 programs with a row of up to 1e8 units a search missed
 * the best answer in five.
 */
const MOST_UNITS = 1e6;

/**
 * What rests on a search's word, where its tolerances may have mattered: asked in each scaling for whole numbers that
 * cost clearly less, the search must find none. What it finds becomes the answer and is doubted in turn. `proved`: what
 * the relaxation proves that nothing costs less than.
 */
export async function doubted(
  table: Table,
  found: Found,
  proved: number,
  engine: Engine,
  limits: () => EngineLimits,
  judge: Judge,
): Promise<Finding> {
  let best = found;
  for (let at = 0; at < INTEGER_SCALINGS.length; at += 1) {
    if (!isDoubtful(table, best.x)) return best;
    const { objective, paid } = costOf(table, best.x);
    const scaled = INTEGER_SCALINGS[at]!(cheaper(table, objective - TOLERANCE * paid));
    const claim = scaled.unscale(await ask(engine, scaled.table, { timeLimitSeconds: LONGEST_SECONDS, ...limits() }));
    if (claim.claim === 'integer-infeasible') continue;
    const answer = claim.claim === 'integer' ? await settle(table, claim.x, judge) : undefined;
    const cost = answer && 'x' in answer ? costOf(table, answer.x).objective : objective;
    if (!answer || 'why' in answer || cost >= objective) {
      return unsure(table, best, proved, claim.claim === 'none' && claim.spent === true);
    }
    best = { ...best, ...answer, objective: cost, bound: cost, gap: 0 };
    at = -1;
  }
  return best;
}

/** The answer without the search's word. */
function unsure(table: Table, { x, violation, engine }: Found, proved: number, spent: boolean): Finding {
  const { objective, paid } = costOf(table, x);
  const bound = Math.min(proved, objective);
  return {
    verdict: 'uncertified',
    claim: 'integer',
    why: `${engine}: whole numbers run too high for its tolerances, and a second search did not settle it`,
    ...(spent ? { unfinished: true } : {}),
    best: { objective, bound, x, violation, gap: gapOf(objective, bound, paid), engine },
  };
}

/** The same, at no more than a cost. */
function cheaper(table: Table, atMost: number): Table {
  const at = [...table.cost.keys()].filter((j) => table.cost[j] !== 0);
  const row = { lower: Number.NEGATIVE_INFINITY, upper: atMost, at, by: at.map((j) => table.cost[j]!) };
  return { ...table, rows: [...table.rows, row] };
}

/** A row of whole numbers runs too high at `x` for a search to be believed at once. */
export function isDoubtful(table: Table, x: readonly number[]): boolean {
  return table.rows.some((row, i) => {
    const whole = wholeRow(table, i);
    if (!whole) return false;
    const unit = [...whole.entries.values()].reduce(gcd, 0n);
    return activity(row, x).size * Number(whole.times) > MOST_UNITS * Number(unit);
  });
}
