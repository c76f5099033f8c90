import { boxes } from './boxes.js';
import type { Claim } from './engine.js';
import { activity, combine, costOf, type Table } from './table.js';

/** What is left of a claim once arithmetic on the original data has checked it; numbers by position. */
export type Certified =
  | { verdict: 'optimal'; objective: number; bound: number; x: number[]; y: number[]; violation: number; gap: number }
  | { verdict: 'infeasible'; ray: number[] }
  | { verdict: 'unbounded'; x: number[]; ray: number[]; violation: number }
  | { verdict: 'refused'; why: string };

/** A row or bound may be missed, and the optimum too, by this part of its size: far below what any balance shows. */
export const TOLERANCE = 1e-6;
/** What is left of a sum that should be 0, in parts of its terms: the multipliers and points of an engine are no finer. */
const DUST = 1e-13;
/** Eight units in the last place: no sum of doubles is known better than to this part of its terms. */
export const LAST_PLACES = 2 ** -50;
/** A proof of impossibility must stand clear of rounding by this part of its terms. */
const MARGIN = 1e-9;

/** Judges a linear claim by arithmetic alone, against the program as it was given. */
export function certify(table: Table, claim: Claim): Certified {
  switch (claim.claim) {
    case 'optimal':
      return optimal(table, claim.x, claim.y);
    case 'infeasible':
      return infeasible(table, claim.ray);
    case 'unbounded':
      return unbounded(table, claim.x, claim.ray);
    case 'none':
      return refused(claim.why);
    default:
      return refused('a linear program was answered as an integer one');
  }
}

/** The answer put onto its column bounds, and by how much it then misses a row; or why it cannot be an answer. */
export function feasible(
  table: Table,
  claimed: readonly number[],
): { x: number[]; violation: number } | { why: string } {
  const faulty = misfit(claimed, table.cost.length, 'column');
  if (faulty) return { why: faulty };
  const x = claimed.map((value, j) => Math.min(Math.max(value, table.lower[j]!), table.upper[j]!));
  let violation = 0;
  for (const row of table.rows) {
    const { value, size } = activity(row, x);
    const lower = missed(row.lower - value, row.lower, size);
    const upper = missed(value - row.upper, row.upper, size);
    violation = Math.max(violation, lower, upper);
  }
  return violation <= TOLERANCE
    ? { x, violation }
    : { why: `a row or bound is missed by ${violation.toExponential(1)} of its size` };
}

function optimal(table: Table, claimed: readonly number[], multipliers: readonly number[]): Certified {
  const primal = feasible(table, claimed);
  if ('why' in primal) return refused(primal.why);
  const faulty = misfit(multipliers, table.rows.length, 'row');
  if (faulty) return refused(faulty);
  const { x, violation } = primal;
  const { objective, paid } = costOf(table, x);
  const y = multipliers.map((value, i) => (Number.isFinite(end(table, i, value)) ? value : 0));
  // bounds that the program gives do for most claims, and cost no look at what its rows imply
  const plain = lowerBound(table, y, objective, false);
  const size = Math.max(Math.abs(objective), Math.abs(plain.bound), paid);
  const isClear =
    Number.isFinite(plain.bound) && Math.abs(objective - plain.bound) + plain.rounding <= TOLERANCE * size;
  const { bound, rounding } = isClear ? plain : lowerBound(table, y, objective, true);
  const gap = relative(objective - bound, Math.max(Math.abs(objective), Math.abs(bound), paid));
  if (Math.abs(gap) <= TOLERANCE)
    return { verdict: 'optimal', objective, bound, x, y, violation, gap: Math.max(0, gap) };
  // an optimum of 0 has no size of its own: what rounding leaves of the bound's sum is no gap
  if (Number.isFinite(bound) && Math.abs(objective - bound) <= rounding + LAST_PLACES * paid)
    return { verdict: 'optimal', objective, bound: objective, x, y, violation, gap: 0 };
  return refused(`the multipliers prove ${bound}, the answer costs ${objective}`);
}

/** What multipliers prove that no point within the column bounds costs less than, −Infinity where a bound it needs is open; `rounding`: how well that is known. */
export function provedBound(table: Table, multipliers: readonly number[]): { bound: number; rounding: number } {
  const y = multipliers.map((value, i) => (Number.isFinite(end(table, i, value)) ? value : 0));
  const pull = combine(table, y);
  let bound = 0;
  let size = 0;
  const add = (term: number, terms: number): void => {
    bound += term;
    size += terms;
  };
  y.forEach((value, i) => {
    if (value !== 0) add(value * end(table, i, value), Math.abs(value * end(table, i, value)));
  });
  for (let j = 0; j < table.cost.length; j += 1) {
    const reduced = table.cost[j]! - pull.value[j]!;
    const limit = reduced > 0 ? table.lower[j]! : table.upper[j]!;
    if (reduced === 0 || limit === 0) continue;
    add(reduced * limit, (Math.abs(table.cost[j]!) + pull.size[j]!) * Math.abs(limit));
  }
  return { bound, rounding: LAST_PLACES * size };
}

/**
 * Σ y · end + Σ reduced cost · column bound: no feasible point costs less (weak duality). A column without the bound it
 * needs gets the box that the rows, and the wish to cost no more than `objective`, imply; so does one whose reduced cost
 * is rounding, which a far bound would make large; not where it is not to be `boxed`, and an open bound then proves nothing. `rounding`: how
 * well the sum is known.
 */
function lowerBound(
  table: Table,
  y: readonly number[],
  objective: number,
  boxed: boolean,
): { bound: number; rounding: number } {
  const pull = combine(table, y);
  let bound = 0;
  let size = 0;
  y.forEach((value, i) => {
    if (value === 0) return;
    bound += value * end(table, i, value);
    size += Math.abs(value * end(table, i, value));
  });
  let box: ReturnType<typeof boxes> | undefined;
  for (let j = 0; j < table.cost.length; j += 1) {
    const reduced = table.cost[j]! - pull.value[j]!;
    if (reduced === 0) continue;
    const terms = Math.abs(table.cost[j]!) + pull.size[j]!;
    const isDust = Math.abs(reduced) <= DUST * terms;
    let limit = reduced > 0 ? table.lower[j]! : table.upper[j]!;
    if (!boxed && !Number.isFinite(limit)) return { bound: Number.NEGATIVE_INFINITY, rounding: 0 };
    if (boxed && limit !== 0 && (isDust || !Number.isFinite(limit))) {
      box ??= boxes(table, { cost: table.cost, atMost: objective });
      limit = reduced > 0 ? box.lower[j]! : box.upper[j]!;
      if (Math.abs(reduced) <= LAST_PLACES * terms && !Number.isFinite(limit)) continue;
    }
    bound += reduced * limit;
    size += terms * Math.abs(limit);
  }
  // the box speaks of points no dearer than the answer
  return { bound: box ? Math.min(bound, objective) : bound, rounding: LAST_PLACES * size };
}

/** Farkas: Σ ray · row cannot reach inside the column bounds what Σ ray · end asks of it. */
function infeasible(table: Table, claimed: readonly number[]): Certified {
  const faulty = misfit(claimed, table.rows.length, 'row');
  if (faulty) return refused(faulty);
  const ray = claimed.map((value, i) => (Number.isFinite(end(table, i, value)) ? value : 0));
  const pull = combine(table, ray);
  let asked = 0;
  let size = 0;
  ray.forEach((value, i) => {
    if (value === 0) return;
    asked += value * end(table, i, value);
    size += Math.abs(value * end(table, i, value));
  });
  // as above: by the program's own bounds first, then by what its rows imply
  const shows = [false, true].some((boxed) => {
    const held = mostWithin(table, pull, boxed);
    return held !== null && asked - held.most > MARGIN * (size + held.size);
  });
  if (!shows) return refused('the ray does not show that the rows conflict');
  return { verdict: 'infeasible', ray };
}

/** The most that Σ pull · x comes to within the column bounds, and its size; null where one that it needs is open and not to be `boxed`. */
function mostWithin(
  table: Table,
  pull: ReturnType<typeof combine>,
  boxed: boolean,
): { most: number; size: number } | null {
  let [most, size] = [0, 0];
  let box: ReturnType<typeof boxes> | undefined;
  for (let j = 0; j < table.cost.length; j += 1) {
    const g = pull.value[j]!;
    if (g === 0) continue;
    let limit = g > 0 ? table.upper[j]! : table.lower[j]!;
    const isDust = Math.abs(g) <= DUST * pull.size[j]!;
    if (!boxed && !Number.isFinite(limit)) return null;
    if (boxed && limit !== 0 && (isDust || !Number.isFinite(limit))) {
      box ??= boxes(table);
      limit = g > 0 ? box.upper[j]! : box.lower[j]!;
      if (Math.abs(g) <= LAST_PLACES * pull.size[j]! && !Number.isFinite(limit)) continue;
    }
    most += g * limit;
    size += Math.abs(g * limit);
  }
  return { most, size };
}

/** A feasible point, and a direction that keeps every row and bound for ever while the cost falls. */
function unbounded(table: Table, start: readonly number[], claimed: readonly number[]): Certified {
  const from = feasible(table, start);
  if ('why' in from) return refused(`the ray starts nowhere: ${from.why}`);
  const faulty = misfit(claimed, table.cost.length, 'column');
  if (faulty) return refused(faulty);
  const ray = claimed.map((value, j) => {
    const blocked = value > 0 ? Number.isFinite(table.upper[j]!) : Number.isFinite(table.lower[j]!);
    return blocked ? 0 : value;
  });
  const fall = table.cost.reduce((sum, c, j) => sum + c * ray[j]!, 0);
  const size = table.cost.reduce((sum, c, j) => sum + Math.abs(c * ray[j]!), 0);
  if (!(fall < -MARGIN * size)) return refused('the cost does not fall along the ray');
  for (const row of table.rows) {
    const along = activity(row, ray);
    const slope = Math.abs(along.value) <= DUST * along.size ? 0 : along.value;
    if ((slope < 0 && Number.isFinite(row.lower)) || (slope > 0 && Number.isFinite(row.upper))) {
      return refused('the ray leaves a row');
    }
  }
  return { verdict: 'unbounded', x: from.x, ray, violation: from.violation };
}

/** The end a multiplier presses on. */
function end(table: Table, i: number, multiplier: number): number {
  return multiplier > 0 ? table.rows[i]!.lower : table.rows[i]!.upper;
}

/**
 * A miss relative to the end that is missed; for an end of 0, to Σ |a · x|. Where the terms cancel, what their last
 * places leave is no miss.
 */
function missed(by: number, end: number, size: number): number {
  const beyond = by - LAST_PLACES * size;
  return beyond > 0 ? relative(beyond, end === 0 ? size : Math.abs(end)) : 0;
}

function misfit(values: readonly number[], wanted: number, kind: string): string | undefined {
  if (!Array.isArray(values) || values.length !== wanted) return `not one number for each ${kind}`;
  return values.every(Number.isFinite) ? undefined : `a ${kind}'s number is not finite`;
}

function relative(by: number, size: number): number {
  return by === 0 ? 0 : by / size;
}

function refused(why: string): Certified {
  return { verdict: 'refused', why };
}
