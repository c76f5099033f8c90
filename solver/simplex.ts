import type { Claim, Engine } from './engine.js';
import { FEW, sieve } from './sift.js';
import { greatest, type Table } from './table.js';
import {
  addCeiling,
  addPieces,
  amount,
  begin,
  type End,
  impossibleRow,
  multipliers,
  step,
  type Tableau,
} from './tableau.js';

/**
 * javascript-lp-solver 1.0.3, made safe: its tableau alone (no ids, no JSON keys, no presolve, which drops costs), default
 * precision, values and multipliers read from the tableau (its own answers are rounded to 1e-8), and a cap on pivots (it may
 * run for ever). Linear programs only. Ceilings and most columns of a long table stay out until an answer asks for them:
 * each would cost every pivot its cells.
 */
export const simplex: Engine = { name: 'javascript-lp-solver', integers: false, solve };

/** Where columns come in late, their gains must be told from 0 more finely than the engine's 1e-8 of the dearest cost. */
const COST_UNIT = 2 ** 12;
/** And what is less than this, beside the largest of a ray or the dearest cost, which is near 1, rounding has left of 0. */
const DUST = 1e-15;

function solve(table: Table): Claim {
  const { from, signs } = starts(table);
  const { ends, crossed } = endsFrom(table, from, signs);
  if (crossed) return { claim: 'infeasible', ray: crossed };
  const few = signs.length <= FEW;
  const tableau = begin(ends, few ? ceilingCount(table) : 0, few ? 1 : COST_UNIT);
  const { first, missed } = sieve(table, signs, ends);
  const ceilings = ceilingsOf(table, tableau);
  const x = (piece: (at: number) => number, start: readonly number[]) => {
    const values = [...start];
    tableau.pieces.forEach(({ column, sign }, at) => {
      values[column]! += sign * piece(at);
    });
    return values;
  };
  const point = () => x((piece) => amount(tableau, piece), from);
  // columns priced late bear what the pivots before them left of zeros
  const cleaned = (y: number[], size: number) =>
    few ? y : y.map((value) => (Math.abs(value) < DUST * size ? 0 : value));
  let more = first();
  for (let round = 0; ; round += 1) {
    addPieces(tableau, table, more);
    if (round === 0 && few) ceilings(() => true, 1);
    tableau.engine.simplex();
    if (!tableau.engine.feasible) {
      const row = impossibleRow(tableau);
      if (row === undefined) return { claim: 'none', why: 'said infeasible without a row that shows it' };
      const claimed = multipliers(tableau, table.rows.length, row, -1);
      const ray = cleaned(claimed, greatest(claimed.map(Math.abs)));
      more = missed('ray', ray);
      if (more.length === 0) return { claim: 'infeasible', ray };
    } else if (!tableau.engine.bounded) {
      const along = (piece: number) => step(tableau, piece);
      more = [];
      if (!ceilings((piece) => along(piece) > 0)) {
        return { claim: 'unbounded', x: point(), ray: x(along, new Array<number>(from.length).fill(0)) };
      }
    } else {
      const { precision } = tableau.engine;
      more = [];
      if (ceilings((piece, room) => amount(tableau, piece) > room + precision)) continue;
      const y = cleaned(multipliers(tableau, table.rows.length, 0, 1 / tableau.costUnit), 1);
      more = missed('multipliers', y);
      if (more.length === 0) return { claim: 'optimal', x: point(), y };
    }
  }
}

/** Where each column starts, at an end of its own or at 0, and which ways it can go from there. */
function starts(table: Table): { from: number[]; signs: Int8Array } {
  const from: number[] = [];
  const signs = new Int8Array(table.cost.length);
  for (let j = 0; j < signs.length; j += 1) {
    const lower = table.lower[j]!;
    const upper = table.upper[j]!;
    const isBelow = Number.isFinite(lower);
    const isAbove = Number.isFinite(upper);
    from.push(isBelow ? lower : isAbove ? upper : 0);
    signs[j] = lower === upper ? 0 : isBelow ? 1 : isAbove ? -1 : 2;
  }
  return { from, signs };
}

/** The finite ends of rows. A row without anything that can move whose ends exclude what it holds is a proof by itself. */
function endsFrom(table: Table, from: readonly number[], signs: Int8Array): { ends: End[]; crossed?: number[] } {
  const ends: End[] = [];
  let crossed: number[] | undefined;
  table.rows.forEach(({ lower, upper, at, by }, row) => {
    let constant = 0;
    let moves = false;
    for (let k = 0; k < at.length; k += 1) {
      const j = at[k]!;
      constant += by[k]! * from[j]!;
      moves ||= signs[j] !== 0;
    }
    const atLeast = lower - constant;
    const atMost = upper - constant;
    if (moves) {
      if (Number.isFinite(atLeast)) ends.push({ row, upper: false, end: atLeast });
      if (Number.isFinite(atMost)) ends.push({ row, upper: true, end: atMost });
    } else if (atLeast > 0 || atMost < 0) {
      // ranked by the certificate; a rounding excess there is no proof and the next engine decides
      crossed = table.rows.map((_, i) => (i === row ? (atMost < 0 ? -1 : 1) : 0));
    }
  });
  return { ends, ...(crossed ? { crossed } : {}) };
}

/** Adds the ceilings of the pieces that ask for theirs and have none yet; `at`: the first free row for them. */
function ceilingsOf(table: Table, tableau: Tableau) {
  const added = new Set<number>();
  return (asks: (piece: number, room: number) => boolean, at?: number): boolean => {
    const before = added.size;
    tableau.pieces.forEach(({ column }, piece) => {
      const room = table.upper[column]! - table.lower[column]!;
      if (!Number.isFinite(room) || added.has(piece) || !asks(piece, room)) return;
      addCeiling(tableau, piece, room, at === undefined ? undefined : at + added.size);
      added.add(piece);
    });
    return added.size > before;
  };
}

function ceilingCount({ lower, upper }: Table): number {
  return upper.filter((end, j) => Number.isFinite(end - lower[j]!) && end !== lower[j]).length;
}
