import { LAST_PLACES, TOLERANCE } from './certificate.js';
import type { EngineLimits } from './engine.js';
import { combine, costOf, type Table } from './table.js';
import type { Case, Judge } from './verdict.js';
import { type Box, warm } from './warm.js';

/** Beyond this many certified relaxations the proof would cost more than it tells; the engine's word then stands. */
const MOST = 200;
/** So many times as many where one starts from the basis of the other, for less time. */
const MORE = 3;
/** What the last places leave of a whole number. */
const WHOLE = 1e-9;

/**
 * A proof for whole numbers, by arithmetic: a column must be ≤ n or ≥ n + 1, and in every such case the certified
 * relaxation has no point or costs no less than `target`. Returns the least bound over the cases and the rays of those
 * without a point; `disproved` when a whole point costs less.
 */
export async function byCases(
  table: Table,
  target: number,
  judge: Judge,
  limits: () => EngineLimits,
  most = MOST,
): Promise<{ bound: number; cases: Case[] } | 'too many' | 'disproved'> {
  const relaxed = { ...table, integer: table.integer.map(() => false) };
  if (table.integer.some((whole, j) => whole && Math.ceil(table.lower[j]!) > Math.floor(table.upper[j]!)))
    return 'too many';
  const walk = most > 0 ? warm(relaxed) : null;
  const open: Box[] = [{ lower: table.lower.map(up(table)), upper: table.upper.map(down(table)) }];
  const cases: Case[] = [];
  let bound = Number.POSITIVE_INFINITY;
  const nearly = Number.isFinite(target) ? target - (TOLERANCE / 2) * Math.abs(target) : target;
  for (let asked = 0; asked < (walk ? MORE * most : most); asked += 1) {
    const box = open.pop();
    if (!box) return { bound, cases };
    if (limits().timeLimitSeconds === 0) return 'too many';
    const quick = walk?.within(box, nearly);
    if (quick && 'ray' in quick) {
      cases.push({ ...box, ray: quick.ray });
      continue;
    }
    if (quick && quick.bound >= nearly) {
      bound = Math.min(bound, Math.abs(quick.bound - target) <= quick.rounding ? target : quick.bound);
      continue;
    }
    const at = quick?.x ? mostFractional(table, quick.x, WHOLE) : undefined;
    if (quick?.x && at !== undefined) {
      open.push(...halves(Number.isFinite(target) ? narrowed(table, box, quick, target) : box, at, quick.x[at]!));
      continue;
    }
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
    const split = mostFractional(table, answer.x, 0);
    if (answer.bound >= enough || (split === undefined && objective >= enough)) {
      bound = Math.min(bound, answer.bound);
      continue;
    }
    if (split === undefined) return 'disproved';
    open.push(...halves(box, split, answer.x[split]!));
  }
  return 'too many';
}

/** The box at or below a value that is not whole, and above it. */
function halves({ lower, upper }: Box, at: number, value: number): [Box, Box] {
  const below = Math.floor(value);
  return [
    { lower, upper: upper.map((end, j) => (j === at ? Math.min(end, below) : end)) },
    { lower: lower.map((end, j) => (j === at ? Math.max(end, below + 1) : end)), upper },
  ];
}

/** The box without the whole numbers of which the multipliers prove that each costs no less than the target. */
function narrowed(table: Table, box: Box, { bound, y }: { bound: number; y: readonly number[] }, target: number): Box {
  const pull = combine(table, y);
  const lower = [...box.lower];
  const upper = [...box.upper];
  for (let j = 0; j < table.cost.length; j += 1) {
    if (!table.integer[j] || lower[j] === upper[j]) continue;
    const reduced = table.cost[j]! - pull.value[j]!;
    const sure = Math.abs(reduced) - 2 * LAST_PLACES * (Math.abs(table.cost[j]!) + pull.size[j]!);
    if (!(sure > 0)) continue;
    const steps = Math.floor((target - bound) / sure + WHOLE);
    if (!(steps >= 0)) continue;
    if (!Number.isFinite(reduced > 0 ? lower[j]! : upper[j]!)) continue;
    if (reduced > 0) upper[j] = Math.min(upper[j]!, lower[j]! + steps);
    else lower[j] = Math.max(lower[j]!, upper[j]! - steps);
  }
  return { lower, upper };
}

function mostFractional(table: Table, x: readonly number[], least: number): number | undefined {
  const part = (j: number) => Math.abs(x[j]! - Math.round(x[j]!));
  return table.integer
    .flatMap((whole, j) => (whole && part(j) > least ? [j] : []))
    .sort((a, b) => part(b) - part(a))[0];
}

/** A whole number above 0.5 is above 1. */
function up(table: Table) {
  return (end: number, j: number) => (table.integer[j] ? Math.ceil(end) : end);
}

function down(table: Table) {
  return (end: number, j: number) => (table.integer[j] ? Math.floor(end) : end);
}
