import { LAST_PLACES, TOLERANCE } from './certificate.js';
import { costOf, type Table } from './table.js';
import type { Case, Judge } from './verdict.js';

/** Beyond this many certified relaxations the proof would cost more than it tells; the engine's word then stands. */
const MOST = 200;

/**
 * A proof for whole numbers, by arithmetic: a column must be ≤ n or ≥ n + 1, and in every such case the certified
 * relaxation has no point or costs no less than `target`. Returns the least bound over the cases and the rays of those
 * without a point; `disproved` when a whole point costs less.
 */
export async function byCases(
  table: Table,
  target: number,
  judge: Judge,
  most = MOST,
): Promise<{ bound: number; cases: Case[] } | 'too many' | 'disproved'> {
  const relaxed = { ...table, integer: table.integer.map(() => false) };
  if (table.integer.some((whole, j) => whole && Math.ceil(table.lower[j]!) > Math.floor(table.upper[j]!)))
    return 'too many';
  const open: { lower: number[]; upper: number[] }[] = [
    { lower: table.lower.map(up(table)), upper: table.upper.map(down(table)) },
  ];
  const cases: Case[] = [];
  let bound = Number.POSITIVE_INFINITY;
  for (let asked = 0; asked < most; asked += 1) {
    const box = open.pop();
    if (!box) return { bound, cases };
    const answer = await judge({ ...relaxed, ...box });
    if (answer.verdict === 'infeasible') {
      cases.push({ ...box, ray: answer.ray });
      continue;
    }
    if (answer.verdict !== 'optimal') return 'too many';
    const { objective, paid } = costOf(table, answer.x);
    // costs that cancel are known to the last places of their terms, also where what is left of them is 0
    if (Math.abs(answer.bound - target) <= LAST_PLACES * paid) {
      bound = Math.min(bound, target);
      continue;
    }
    const enough = target - TOLERANCE * Math.max(Math.abs(target), Math.abs(answer.bound));
    const split = mostFractional(table, answer.x);
    if (answer.bound >= enough || (split === undefined && objective >= enough)) {
      bound = Math.min(bound, answer.bound);
      continue;
    }
    if (split === undefined) return 'disproved';
    const value = Math.floor(answer.x[split]!);
    open.push(
      { ...box, upper: box.upper.map((end, j) => (j === split ? value : end)) },
      { ...box, lower: box.lower.map((end, j) => (j === split ? value + 1 : end)) },
    );
  }
  return 'too many';
}

function mostFractional(table: Table, x: readonly number[]): number | undefined {
  const part = (j: number) => Math.abs(x[j]! - Math.round(x[j]!));
  return table.integer.flatMap((whole, j) => (whole && part(j) > 0 ? [j] : [])).sort((a, b) => part(b) - part(a))[0];
}

/** A whole number above 0.5 is above 1. */
function up(table: Table) {
  return (end: number, j: number) => (table.integer[j] ? Math.ceil(end) : end);
}

function down(table: Table) {
  return (end: number, j: number) => (table.integer[j] ? Math.floor(end) : end);
}
