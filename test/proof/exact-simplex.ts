import type { Dictionary } from './dictionary.js';

/** Pivots after which the choice falls to the smallest index (R. G. Bland 1977), which cannot cycle. */
const PATIENCE = 400;

/** Takes a dictionary to its optimum; no rounding, so that what it says is so. */
export function optimise(dictionary: Dictionary): 'optimal' | 'infeasible' | 'unbounded' {
  if (crossed(dictionary) || !repair(dictionary)) return 'infeasible';
  return descend(dictionary);
}

function crossed({ lower, upper }: Dictionary): boolean {
  return lower.some((low, v) => low !== undefined && upper[v] !== undefined && low > upper[v]!);
}

/**
 * Brings every basic variable within its bounds. Entering variables are chosen by the dual ratio, which keeps a dictionary
 * dual feasible that was so before. False where a row shows that its variable cannot reach its bound.
 */
function repair(t: Dictionary): boolean {
  for (let step = 0; ; step += 1) {
    const bland = step > PATIENCE;
    const miss = worstMiss(t, bland);
    if (!miss) return true;
    const row = t.entries[miss.row]!;
    let entering: number | undefined;
    for (let s = 0; s < row.length; s += 1) {
      if (row[s] === 0n || !canMove(t, t.nonbasic[s]!, row[s]! > 0n === miss.upwards)) continue;
      if (entering === undefined) entering = s;
      else {
        const better = bland ? 0n : abs(t.cost[s]!) * abs(row[entering]!) - abs(t.cost[entering]!) * abs(row[s]!);
        if (better < 0n || (better === 0n && t.nonbasic[s]! < t.nonbasic[entering]!)) entering = s;
      }
    }
    if (entering === undefined) return false;
    t.pivot(miss.row, entering, miss.bound);
  }
}

function worstMiss(t: Dictionary, bland: boolean): { row: number; upwards: boolean; bound: bigint } | undefined {
  let found: { row: number; upwards: boolean; bound: bigint; by: bigint } | undefined;
  t.basic.forEach((v, row) => {
    const [low, high] = [t.lower[v], t.upper[v]];
    const value = t.values[row]!;
    const below = low === undefined ? 0n : low * t.denominator - value;
    const above = high === undefined ? 0n : value - high * t.denominator;
    if (below <= 0n && above <= 0n) return;
    const upwards = below > 0n;
    const by = upwards ? below : above;
    const first = !found || (bland ? v < t.basic[found.row]! : by > found.by);
    if (first) found = { row, upwards, bound: upwards ? low! : high!, by };
  });
  return found;
}

/** Primal simplex from a feasible dictionary. */
function descend(t: Dictionary): 'optimal' | 'unbounded' {
  for (let step = 0; ; step += 1) {
    const s = enteringColumn(t, step > PATIENCE);
    if (s === undefined) return 'optimal';
    const up = t.cost[s]! < 0n;
    const block = firstBlock(t, s, up);
    if (!block) return 'unbounded';
    if (block.row !== undefined) t.pivot(block.row, s, block.bound);
    else {
      t.at[t.nonbasic[s]!] = block.bound;
      t.refresh();
    }
  }
}

function enteringColumn(t: Dictionary, bland: boolean): number | undefined {
  let found: number | undefined;
  t.cost.forEach((reduced, s) => {
    if (reduced === 0n || !canMove(t, t.nonbasic[s]!, reduced < 0n)) return;
    const first =
      found === undefined || (bland ? t.nonbasic[s]! < t.nonbasic[found]! : abs(reduced) > abs(t.cost[found]!));
    if (first) found = s;
  });
  return found;
}

/** What stops a nonbasic variable first: a row's basic variable at its bound, or its own other bound. */
function firstBlock(t: Dictionary, s: number, up: boolean): { row?: number; bound: bigint } | undefined {
  const own = t.nonbasic[s]!;
  const end = up ? t.upper[own] : t.lower[own];
  let found: { row?: number; bound: bigint; variable: number; num: bigint; den: bigint } | undefined;
  if (end !== undefined) found = { bound: end, variable: own, num: abs(end - t.at[own]!), den: 1n };
  t.entries.forEach((entries, row) => {
    const slope = up ? entries[s]! : -entries[s]!;
    if (slope === 0n) return;
    const variable = t.basic[row]!;
    const bound = slope > 0n ? t.upper[variable] : t.lower[variable];
    if (bound === undefined) return;
    const [num, den] = [abs(bound * t.denominator - t.values[row]!), abs(slope)];
    const sooner = found ? num * found.den - found.num * den : -1n;
    if (sooner < 0n || (sooner === 0n && variable < found!.variable)) found = { row, bound, variable, num, den };
  });
  return found;
}

function canMove(t: Dictionary, variable: number, up: boolean): boolean {
  const end = up ? t.upper[variable] : t.lower[variable];
  return end === undefined || (up ? t.at[variable]! < end : t.at[variable]! > end);
}

function abs(value: bigint): bigint {
  return value < 0n ? -value : value;
}
