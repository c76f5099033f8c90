import { SOLUTION_IONS, type SolutionIons, totalOf } from '../can/clouding.js';
import { type StockItem, type StockSetting, solubleLimits, mineralsHold, type TankLimit, tankLimits } from './tank.js';

/** Which items stand in which bottle; the calcium bottle first. */
export type Split = readonly (readonly StockItem[])[];

/** Items up to this number are tried in every way; of more, the lightest follow the rule for traces. */
export const EXACT_UP_TO = 12;

/** An item that brings less than this share of every ion sways no index by more than a hundredth: a trace. */
const TRACE = 0.02;

export interface Splits {
  /** The best first: one bottle before two, then the fewest opposed pairs in one bottle, then the lighter heavier bottle. */
  splits: Split[];
  /** False where so many items matter that only the heaviest were tried in every way. */
  exact: boolean;
}

/** Every way to share items between at most `tanks` bottles. Two bottles that are mirror images count once. */
export function splitsOf(items: readonly StockItem[], tanks: readonly (1 | 2)[]): Splits {
  const byWeight = [...items].sort((a, b) => b.perLitre - a.perLitre || (a.product.id < b.product.id ? -1 : 1));
  const total = totalOf(items.map((item) => item.brings.most ?? item.brings.ions));
  const matters = byWeight.filter((item, i) => i < 2 || !isTrace(item, total));
  const free = matters.slice(0, EXACT_UP_TO);
  const bound = byWeight.filter((item) => !free.includes(item));
  const candidates: { split: Split; tanks: number; opposed: number; heaviest: number }[] = [];
  const add = (split: Split): void => {
    candidates.push({
      split: calciumFirst(split),
      tanks: split.length,
      opposed: split.reduce((sum, tank) => sum + opposedPairs(tank), 0),
      heaviest: Math.max(...split.map((tank) => tank.reduce((sum, item) => sum + item.perLitre, 0))),
    });
  };
  if (tanks.includes(1)) add([items]);
  if (tanks.includes(2)) {
    // the first item always stands in the first bottle, so that no split is met twice
    for (let mask = 0; mask < 2 ** Math.max(0, free.length - 1) - 1; mask += 1) {
      const inFirst = free.filter((_, i) => i === 0 || (mask & (1 << (i - 1))) !== 0);
      const inSecond = free.filter((item) => !inFirst.includes(item));
      const split = [[...inFirst], [...inSecond]] as [StockItem[], StockItem[]];
      for (const item of bound) placed(item, split).push(item);
      add(split);
    }
  }
  candidates.sort((a, b) => a.tanks - b.tanks || a.opposed - b.opposed || a.heaviest - b.heaviest);
  return { splits: candidates.map((c) => c.split), exact: matters.length === free.length };
}

/** Every limit of every bottle of a split at a strength. */
export function splitLimits(split: Split, factor: number, setting: StockSetting): TankLimit[] {
  return split.flatMap((tank) => tankLimits(tank, factor, setting));
}

/** True where every limit holds; solubility, the cheaper question, is asked first. */
export function splitHolds(split: Split, factor: number, setting: StockSetting): boolean {
  return (
    split.every((tank) => solubleLimits(tank, factor, setting).every(({ holds }) => holds)) &&
    split.every((tank) => mineralsHold(tank, factor, setting))
  );
}

function isTrace({ brings }: StockItem, total: SolutionIons): boolean {
  const ions = brings.most ?? brings.ions;
  return SOLUTION_IONS.every((ion) => Math.abs(ions[ion]) <= TRACE * Math.abs(total[ion]));
}

/** Traces and items past the exact ones: calcium to the calcium bottle, the rest to the other. */
function placed(item: StockItem, [first, second]: [StockItem[], StockItem[]]): StockItem[] {
  const calciumIsFirst = calciumOf(first) >= calciumOf(second);
  return item.brings.ions.Ca > 0 === calciumIsFirst ? first : second;
}

function calciumFirst(split: Split): Split {
  const weight = (tank: readonly StockItem[]): number => tank.reduce((sum, item) => sum + item.perLitre, 0);
  return [...split].sort((a, b) => calciumOf(b) - calciumOf(a) || weight(b) - weight(a));
}

const calciumOf = (tank: readonly StockItem[]): number => tank.reduce((sum, item) => sum + item.brings.ions.Ca, 0);

/** Pairs of a calcium item with a sulfate or phosphate item. */
function opposedPairs(tank: readonly StockItem[]): number {
  const calcium = tank.filter((item) => item.brings.ions.Ca > 0);
  const opposed = tank.filter((item) => item.brings.ions.SO4 > 0 || item.brings.ions.P > 0);
  return calcium.length * opposed.length;
}
