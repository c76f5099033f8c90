import { gcd, wholeRow } from './divisor.js';
import type { Table } from './table.js';

/** Remainders at most: each takes a step for each column. */
const MOST = 100_000;
/** A price or reduced cost is a difference known to this part of its terms. */
const ROUNDING = 2 ** -48;

/** Nothing costs less than `bound`; `x`, in whole numbers, costs that, and keeps its row; it may leave its bounds. */
export interface Remaindered {
  bound: number;
  x: number[];
}

/** What a unit more of a column, counted from the bound that its reduced cost presses on, costs and leaves. */
interface Step {
  column?: number;
  direction: 1 | -1;
  cost: number;
  by: number;
}

/**
 * A program of whole numbers with one row, a · x ≥ end or = end. Whatever the other columns are, they must leave a
 * multiple of a[k] for column k; the cheapest way to each remainder modulo a[k] is a shortest path (the group relaxation
 * of Gomory, 1965; its paths as Böcker and Lipták, 2007, walk them). In whole numbers throughout, so that large entries
 * do no harm, as they do to a search. `root`: the optimum without whole numbers. Undefined where this does not apply.
 */
export function byRemainders(table: Table, root: readonly number[]): Remaindered | undefined {
  const row = table.rows.length === 1 ? wholeRow(table, 0) : undefined;
  const k = root.findIndex((value, j) => value !== table.lower[j] && value !== table.upper[j]);
  if (!row?.entries.has(k)) return undefined;
  const unit = [...row.entries.values()].reduce(gcd, 0n);
  const entry = (j: number) => (row.entries.get(j) ?? 0n) / unit;
  const [price, modulus] = [table.cost[k]! / Number(entry(k)), abs(entry(k))];
  const side = row.lower === row.upper ? 0 : price > 0 ? 1 : -1;
  const asked = side < 0 ? row.upper : row.lower;
  if (asked === undefined || modulus > MOST) return undefined;
  const end = side < 0 ? floor(asked, unit) : -floor(-asked, unit);
  const steps: Step[] = [];
  const x = table.cost.map(() => 0);
  let rest = end;
  let bound = price * Number(end);
  if (side !== 0) steps.push({ direction: 1, cost: Math.abs(price), by: modulo(BigInt(-side), modulus) });
  for (const [j, cost] of table.cost.entries()) {
    if (j === k) continue;
    const priced = price * Number(entry(j));
    const reduced = Math.abs(cost - priced) <= ROUNDING * Math.abs(cost) ? 0 : cost - priced;
    const direction = reduced > 0 || (reduced === 0 && Number.isFinite(table.lower[j]!)) ? 1 : -1;
    x[j] = direction > 0 ? Math.ceil(table.lower[j]!) : Math.floor(table.upper[j]!);
    if (!Number.isSafeInteger(x[j])) return undefined;
    rest -= entry(j) * BigInt(x[j]!);
    bound += reduced * x[j]!;
    steps.push({ column: j, direction, cost: Math.abs(reduced), by: modulo(BigInt(direction) * entry(j), modulus) });
  }
  const path = cheapest(steps, Number(modulus), modulo(rest, modulus));
  if (!path) return undefined;
  for (const { column, direction } of path.steps) {
    if (column === undefined) rest += BigInt(side);
    else {
      x[column]! += direction;
      rest -= BigInt(direction) * entry(column);
    }
  }
  x[k] = Number(rest / entry(k));
  return { bound: bound + path.cost, x };
}

/** The cheapest steps from remainder 0 to another: step after step, each twice around every circle that it walks. */
function cheapest(steps: readonly Step[], modulus: number, to: number): { cost: number; steps: Step[] } | undefined {
  const cost = new Float64Array(modulus).fill(Number.POSITIVE_INFINITY);
  const last = new Int16Array(modulus).fill(-1);
  cost[0] = 0;
  steps.forEach((step, at) => {
    const circles = Number(gcd(BigInt(step.by), BigInt(modulus)));
    for (let circle = 0; circle < circles; circle += 1) {
      let from = circle;
      for (let count = (2 * modulus) / circles; count > 0; count -= 1) {
        const next = (from + step.by) % modulus;
        if (cost[from]! + step.cost < cost[next]!) {
          cost[next] = cost[from]! + step.cost;
          last[next] = at;
        }
        from = next;
      }
    }
  });
  if (cost[to] === Number.POSITIVE_INFINITY) return undefined;
  const taken: Step[] = [];
  for (let at = to; at !== 0; ) {
    const step = steps[last[at]!]!;
    taken.push(step);
    if (taken.length > modulus) return undefined;
    at = (at - step.by + modulus) % modulus;
  }
  return { cost: cost[to]!, steps: taken };
}

function floor(value: bigint, unit: bigint): bigint {
  return (value - (((value % unit) + unit) % unit)) / unit;
}

function modulo(value: bigint, modulus: bigint): number {
  return Number(((value % modulus) + modulus) % modulus);
}

const abs = (value: bigint): bigint => (value < 0n ? -value : value);
