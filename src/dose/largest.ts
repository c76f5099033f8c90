import { type Split, splitHolds, splitLimits } from './assign.js';
import { canCloud, mineralLimits, solubleLimits, type StockItem, type StockSetting } from './tank.js';

/** The strongest stock that holds. */
export interface Largest {
  /** Times the strength in the can; null where not even the weakest holds. */
  factor: number | null;
  split: Split | null;
  /** What breaks first just above it; `measuring` at the end of the range. */
  limitedBy: string[];
}

/** From 1:2, below which it is no stock, to 1:1000, a dose of 1 mL per litre: less cannot be measured. */
export const WEAKEST = 2;
export const STRONGEST = 1000;

/**
 * The strongest stock over all splits, to 0.1 ‰. Solubility only tightens with strength; minerals need not (a strong stock turns acid),
 * so they are followed up from the weakest in steps of a tenth to the first that breaks.
 */
export function largest(splits: readonly Split[], setting: StockSetting): Largest {
  let best = 0;
  let split: Split | null = null;
  const bySolubility = memo((tank) => solubleMost(tank, setting));
  const byMinerals = memo((tank) => clearMost(tank, bySolubility(tank), setting));
  const ranked = splits.map((s) => ({ split: s, most: Math.min(...s.map((tank) => bySolubility(tank))) }));
  ranked.sort((a, b) => b.most - a.most);
  for (const candidate of ranked) {
    if (candidate.most <= best * (1 + 1e-9)) break;
    if (best > 0 && !splitHolds(candidate.split, best * (1 + 2e-4), setting)) continue;
    const factor = Math.min(...candidate.split.map((tank) => byMinerals(tank)));
    if (factor > best) {
      best = factor;
      split = candidate.split;
    }
  }
  if (split === null) {
    return { factor: null, split, limitedBy: splits[0] ? broken(splits[0], WEAKEST, setting) : [] };
  }
  return {
    factor: best,
    split,
    limitedBy: best >= STRONGEST ? ['measuring'] : broken(split, best * (1 + 1e-3), setting),
  };
}

/** The sentences of the limits that a split breaks at a strength, the worst first. */
export function broken(split: Split, factor: number, setting: StockSetting): string[] {
  const over = splitLimits(split, factor, setting).filter((limit) => !limit.holds);
  over.sort((a, b) => b.share - a.share);
  return [...new Set(over.map((limit) => limit.sentence))];
}

function solubleMost(tank: readonly StockItem[], setting: StockSetting): number {
  const holds = (factor: number): boolean => solubleLimits(tank, factor, setting).every((limit) => limit.holds);
  if (!holds(WEAKEST)) return 0;
  return holds(STRONGEST) ? STRONGEST : bisect(WEAKEST, STRONGEST, holds);
}

function clearMost(tank: readonly StockItem[], most: number, setting: StockSetting): number {
  if (most === 0 || !canCloud(tank, setting)) return most;
  const holds = (factor: number): boolean => mineralLimits(tank, factor, setting).every((limit) => limit.holds);
  let below = WEAKEST;
  if (!holds(below)) return 0;
  while (below < most) {
    const next = Math.min(most, below * 1.1);
    if (!holds(next)) return bisect(below, next, holds);
    below = next;
  }
  return most;
}

/** The largest factor known to hold, within 0.1 ‰ of one that does not. */
function bisect(holding: number, breaking: number, holds: (factor: number) => boolean): number {
  let [low, high] = [holding, breaking];
  while (high > low * (1 + 1e-4)) {
    const middle = Math.sqrt(low * high);
    if (holds(middle)) low = middle;
    else high = middle;
  }
  return low;
}

/** Remembers by the items of the bottle, not by the array that holds them. */
function memo(of: (tank: readonly StockItem[]) => number) {
  const known = new Map<string, number>();
  return (tank: readonly StockItem[]): number => {
    const key = JSON.stringify(tank.map((item) => item.product.id).sort());
    const value = known.get(key) ?? of(tank);
    known.set(key, value);
    return value;
  };
}
