import { type Certified, certify, provedBound } from './certificate.js';
import type { Claim } from './engine.js';
import { type Scaled, scale } from './scale.js';
import { Dictionary } from './dual.js';
import type { Table } from './table.js';

/** Column bounds of one case. */
export interface Box {
  lower: number[];
  upper: number[];
}

/** What the relaxation comes to within a box: a proved bound of its cost and a point to branch at, null once `enough` is proved; or a proof that it has none. */
export type Within = { bound: number; rounding: number; x: number[] | null; y: number[] } | { ray: number[] };

/** An optimum with its multipliers, or a proof that there is no point. */
export type Answer = Extract<Certified, { verdict: 'optimal' | 'infeasible' }>;

/** The relaxation of a table, asked box after box. */
export interface Warm {
  /** Null where arithmetic on the original data accepts nothing. `enough`: a bound from which on nothing more is wanted. */
  within(box: Box, enough: number): Within | null;
  /** The certified answer within the box; null where arithmetic accepts none. */
  answer(box: Box): Answer | null;
  /** Pivots × cells so far. */
  work(): number;
}

/** Larger dictionaries are quicker in an engine that keeps its matrix sparse. */
const MOST_CELLS = 400_000;

/**
 * A table whose relaxation is asked for many boxes, each started from the basis of the one before; null where it does not suit the dual simplex
 * method on a dictionary: too large, or a column without the finite end that its cost needs.
 */
export function warm(table: Table): Warm | null {
  const cells = table.cost.length * table.rows.length;
  const isApt = table.cost.every((cost, j) => Number.isFinite(cost < 0 ? table.upper[j]! : table.lower[j]!));
  if (cells > MOST_CELLS || !isApt) return null;
  const scaled = scale(table);
  const unit = columnUnits(table, scaled);
  const costUnit = costUnitOf(table, scaled, unit);
  let walk: Dictionary | null = null;
  let work = 0;
  const claimed = ({ lower, upper }: Box, enough: number): { told: Claim; done: boolean } | null => {
    walk ??= new Dictionary(scaled.table);
    const before = walk.pivots;
    const claim = walk.least(
      lower.map((end, j) => end / unit[j]!),
      upper.map((end, j) => end / unit[j]!),
      enough * costUnit,
    );
    work += (walk.pivots - before + 1) * cells;
    return claim && { told: scaled.unscale(claim), done: claim.done };
  };
  const certified = (box: Box): Answer | null => {
    const claim = claimed(box, Number.POSITIVE_INFINITY);
    const found = claim && certify({ ...table, ...box }, claim.told);
    return found?.verdict === 'optimal' || found?.verdict === 'infeasible' ? found : null;
  };
  const ask = (box: Box, enough: number): Within | null => {
    const claim = claimed(box, enough);
    if (!claim) return null;
    const within = { ...table, ...box };
    const { told } = claim;
    if (told.claim === 'infeasible') return certify(within, told).verdict === 'infeasible' ? { ray: told.ray } : null;
    if (told.claim !== 'optimal') return null;
    const { bound, rounding } = provedBound(within, told.y);
    if (claim.done) return Number.isFinite(bound) ? { bound, rounding, x: told.x, y: told.y } : null;
    return bound >= enough ? { bound, rounding, x: null, y: told.y } : null;
  };
  return {
    within(box, enough) {
      const first = ask(box, enough) ?? ask(box, Number.POSITIVE_INFINITY);
      if (first) return first;
      // what many pivots leave in the last places may be all that is wrong
      walk = null;
      return ask(box, Number.POSITIVE_INFINITY);
    },
    answer(box) {
      const first = certified(box);
      if (first) return first;
      walk = null;
      return certified(box);
    },
    work: () => work,
  };
}

/** What one unit of each scaled column is in the program. */
function columnUnits(table: Table, scaled: Scaled): number[] {
  const told = scaled.unscale({ claim: 'optimal', x: table.cost.map(() => 1), y: [] });
  return told.claim === 'optimal' ? told.x : [];
}

/** What one unit of cost is in the scaled table; 1 where nothing costs. */
function costUnitOf(table: Table, scaled: Scaled, unit: readonly number[]): number {
  const at = table.cost.findIndex((cost) => cost !== 0);
  return at < 0 ? 1 : scaled.table.cost[at]! / (table.cost[at]! * unit[at]!);
}
