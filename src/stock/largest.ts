import { type Split, splitHolds, splitLimits } from './assign.js';
import type { Pair } from '../can/clouding.js';
import type { StockLimit } from './findings.js';
import { canCloud, mineralsHold, type StockItem, type StockSetting, solubleLimits } from './tank.js';

/** The strongest stock that holds. */
export interface Largest {
  /** Times the strength in the can; null where not even the weakest holds. */
  factor: number | null;
  split: Split | null;
  /** What is violated first just above it, the worst first. */
  limitedBy: StockLimit[];
}

/** From 1:2, below which it is no stock, to 1:1000, a dose of 1 mL per litre: less cannot be measured. */
const WEAKEST = 2;
export const STRONGEST = 1000;

/**
 * The strongest stock over all splits, to 0.1 ‰. Solubility only tightens with strength; minerals need not (a strong stock turns acid),
 * so they are followed up from the weakest in steps of a tenth to the first that is violated.
 */
export function largest(splits: readonly Split[], setting: StockSetting): Largest {
  let best = 0;
  let split: Split | null = null;
  for (const candidate of splits) {
    // most cannot beat the best so far, which one look at each bottle shows
    if (best > 0 && !splitHolds(candidate, best * (1 + 2e-4), setting)) continue;
    const factor = Math.min(...candidate.map((tank) => mostOf(tank, setting)));
    if (factor > best) [best, split] = [factor, candidate];
  }
  if (split === null) {
    return { factor: null, split, limitedBy: splits[0] ? violationsOf(splits[0], WEAKEST, setting) : [] };
  }
  return {
    factor: best,
    split,
    limitedBy: best >= STRONGEST ? [{ kind: 'dose' }] : violationsOf(split, best * (1 + 1e-3), setting),
  };
}

/** The limits that a split violates at a strength, the worst first; what both bottles violate alike is told once. */
export function violationsOf(split: Split, factor: number, setting: StockSetting): StockLimit[] {
  const over = splitLimits(split, factor, setting).filter(({ holds }) => !holds);
  over.sort((a, b) => b.share - a.share);
  return over.map(({ limit }) => limit).filter((limit, i, all) => all.findIndex((other) => isSame(limit, other)) === i);
}

const idsOf = (pair: Pair | null): string => (pair ?? []).map(({ id }) => id).join();

function isSame(a: StockLimit, b: StockLimit): boolean {
  if (a.kind === 'mineral' && b.kind === 'mineral')
    return a.mineral === b.mineral && idsOf(a.between) === idsOf(b.between);
  return a.kind === b.kind && ('name' in a ? a.name : '') === ('name' in b ? b.name : '');
}

/** The strongest that one bottle can be; 0 where the weakest violates a limit already. */
function mostOf(tank: readonly StockItem[], setting: StockSetting): number {
  const dissolves = (factor: number): boolean => solubleLimits(tank, factor, setting).every(({ holds }) => holds);
  const clear = (factor: number): boolean => mineralsHold(tank, factor, setting);
  if (!dissolves(WEAKEST) || !clear(WEAKEST)) return 0;
  const most = dissolves(STRONGEST) ? STRONGEST : bisect(WEAKEST, STRONGEST, dissolves);
  if (!canCloud(tank, setting)) return most;
  for (let below = WEAKEST; below < most; ) {
    const next = Math.min(most, below * 1.1);
    if (!clear(next)) return bisect(below, next, clear);
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
