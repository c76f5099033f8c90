import type { Batch } from './batch.js';
import { seeded } from './matrix.js';
import type { Point, Weighed } from './likelihood.js';
import { SPREADS } from './spreads.js';
import { freshSpread } from '../chance/lasting.js';
import { hypot } from '../units/elementary.js';
import type { BatchItem } from './batch.js';

/** One can that would show these readings: g or mL of each item, and litres. */
export interface PossibleCan {
  amounts: number[];
  litres: number;
  /** The water it was made with; absent: that of the plan. */
  waters?: Batch['waters'];
  /** The cause that it stands for. */
  cause: string;
}

/**
 * Cans drawn in proportion to how likely they are, given the readings (conditioning by correction, Matheron's rule): what happened, how far
 * each hand was off, how far the pen was. Seeded, so the same readings give the same cans.
 * @param keep which points may be drawn from; all by default
 */
export function possibleCans(
  weighed: Weighed,
  count: number,
  keep: (point: Point) => boolean = () => true,
  seed = SEED,
): PossibleCan[] {
  const random = seeded(seed);
  const points = weighed.points.filter((point) => point.probability > 1e-9 && keep(point));
  const total = points.reduce((sum, point) => sum + point.probability, 0);
  const cans: PossibleCan[] = [];
  let at = 0;
  let passed = 0;
  for (let c = 0; c < count; c += 1) {
    // evenly through the pile, so that few cans stand for many
    const target = ((c + random.uniform()) / count) * total;
    while (at < points.length - 1 && passed + points[at]!.probability < target) {
      passed += points[at]!.probability;
      at += 1;
    }
    cans.push(canOf(weighed, points[at]!, random.normal));
  }
  return cans;
}

const SEED = 20261125;

function canOf({ batch, readings, batch: { learned } }: Weighed, point: Point, normal: () => number): PossibleCan {
  const { effect, noise } = point;
  const n = batch.items.length;
  // amounts, labels, water, pen
  const chance = Array.from({ length: 2 * n + 2 }, normal);
  // the draw's own readings are off from those seen; chance is moved by what the readings tell of it
  const off = readings.map((reading, j) => {
    const mean = effect.mean[j]!;
    const drawn = noise.columns[j]!.reduce((sum, column, k) => sum + column * chance[k]!, 0);
    return reading.mSPerCm - mean - drawn - normal() * hypot(mean * SPREADS.penEach, SPREADS.lastDigit);
  });
  const pull = readings.map((_, j) => noise.precision[j]!.reduce((sum, p, k) => sum + p * off[k]!, 0));
  const settled = chance.map((z, k) => z + readings.reduce((sum, _, j) => sum + noise.columns[j]![k]! * pull[j]!, 0));
  return {
    amounts: batch.items.map((item, i) =>
      Math.max(0, effect.factors[i]! * (item.planned + doseOff(item, learned !== undefined, settled[i]!, normal))),
    ),
    litres: batch.litres * effect.volume * Math.max(0.5, 1 + SPREADS.water * settled[2 * n]!),
    ...(point.waters === batch.waters ? {} : { waters: point.waters }),
    cause: point.hypothesis.cause,
  };
}

/** g or mL that a dose is off. Where readings were learned by, they tell of what is new with the dose only; what lasts stays open. */
function doseOff({ planned, sd, lasting = 0 }: BatchItem, isLearned: boolean, z: number, normal: () => number): number {
  if (!isLearned || !(planned > 0)) return sd * z;
  return planned * (freshSpread(sd / planned, lasting) * z + lasting * normal());
}

/** The litres of the can in the middle. */
export const middleLitres = (cans: readonly PossibleCan[]): number =>
  quantiles(
    cans.map((can) => can.litres),
    [0.5],
  )[0]!;

/** The values below which these shares of the numbers lie. */
export const quantiles = (values: readonly number[], shares: readonly number[]): number[] =>
  quantilesOfSorted(Float64Array.from(values).sort(), shares);

/** The same of numbers from small to large. */
export function quantilesOfSorted(sorted: Float64Array, shares: readonly number[]): number[] {
  return shares.map((share) => {
    const at = Math.min(sorted.length - 1, Math.max(0, share * (sorted.length - 1)));
    const [low, high] = [sorted[Math.floor(at)]!, sorted[Math.ceil(at)]!];
    return low + (at - Math.floor(at)) * (high - low);
  });
}
