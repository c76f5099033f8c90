import type { MilliSiemensPerCm } from '../units/index.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfWater, plus } from '../can/ec.js';
import { type Batch, itemsAt, litresAt, type Moment } from './batch.js';
import { labelSpread } from './spreads.js';

/** What the pen would show at each asked moment, if amounts and water were multiplied. */
export interface Expected {
  moments: readonly Moment[];
  /** mS/cm at 25 °C as planned. */
  planned: MilliSiemensPerCm[];
  /** With `factor` times the amount of one item. */
  withItem: (item: number, factor: number) => number[];
  /** With `factor` times the water. */
  withVolume: (factor: number) => number[];
  /** With two items' amounts exchanged. */
  swapped: (a: number, b: number) => number[];
  /** d EC / d ln(amount) at the plan, per moment and item. */
  slopes: number[][];
  /** d EC / d ln(water) at the plan, per moment. */
  volumeSlopes: number[];
  /** Relative standard deviation of what each item adds, beside what its label says. */
  labelSpreads: number[];
}

/**
 * Predicted readings by the full conductivity model. The model is asked at a few amounts of each item and a smooth curve is drawn
 * through them, which stays within 0.2 % of it (tested); a reading is judged in milliseconds then.
 */
export function expectedReadings(batch: Batch, moments: readonly Moment[]): Expected {
  const key = moments.join();
  const known = KNOWN.get(batch)?.get(key);
  if (known) return known;
  const found = worked(batch, moments);
  KNOWN.set(batch, new Map(KNOWN.get(batch)).set(key, found));
  return found;
}

/** Kept by all that they depend on, which cannot be changed: the batch, and the moments asked for. */
const KNOWN = new WeakMap<Batch, Map<string, Expected>>();

function worked(batch: Batch, moments: readonly Moment[]): Expected {
  const ones = batch.items.map(() => 1);
  const planned = moments.map((moment) => ecOf(batch, moment, ones, 1));
  const itemCurves = new Map<number, Curve[]>();
  const curvesOf = (item: number): Curve[] => {
    const known = itemCurves.get(item);
    if (known) return known;
    const curves = moments.map((moment, j) => {
      if (itemsAt(batch, moment) <= item) return () => planned[j]!;
      return curve(ITEM_NODES, (factor) =>
        factor === 1
          ? planned[j]!
          : ecOf(
              batch,
              moment,
              ones.map((one, i) => (i === item ? factor : one)),
              1,
            ),
      );
    });
    itemCurves.set(item, curves);
    return curves;
  };
  const exchanged = new Map<string, number[]>();
  let volumeCurves: Curve[] | null = null;
  // in parts of concentration the curve is nearly straight
  const curvesOfVolume = (): Curve[] => {
    volumeCurves ??= moments.map((moment, j) =>
      curve(VOLUME_NODES, (strength) => (strength === 1 ? planned[j]! : ecOf(batch, moment, ones, 1 / strength))),
    );
    return volumeCurves;
  };
  const withItem = (item: number, factor: number): number[] => curvesOf(item).map((at) => at(factor));
  const withVolume = (factor: number): number[] => curvesOfVolume().map((at) => at(1 / factor));
  const bySlope = (of: (factor: number) => number[]): number[] => {
    const [low, high] = [of(1 - STEP), of(1 + STEP)];
    return low.map((x, j) => (high[j]! - x) / (2 * STEP));
  };
  const perItem = batch.items.map((_, i) => bySlope((factor) => withItem(i, factor)));
  return {
    moments,
    planned,
    withItem,
    withVolume,
    swapped: (a, b) => {
      const before = exchanged.get(`${a}:${b}`);
      if (before) return before;
      const [x, y] = [batch.items[a]!.planned, batch.items[b]!.planned];
      const factors = ones.map((one, i) => (i === a ? y / x : i === b ? x / y : one));
      const means = moments.map((moment) => ecOf(batch, moment, factors, 1));
      exchanged.set(`${a}:${b}`, means);
      return means;
    },
    slopes: moments.map((_, j) => perItem.map((slopes) => slopes[j]!)),
    volumeSlopes: bySlope(withVolume),
    labelSpreads: batch.items.map(({ product }) => labelSpread(product)),
  };
}

/** mS/cm of the can at a moment, by the full model. `factors` multiply the amounts, `volume` the water. */
export function ecOf(batch: Batch, moment: Moment, factors: readonly number[], volume: number): MilliSiemensPerCm {
  const litres = litresAt(batch, moment) * volume;
  let ions = batch.waters.reduce((sum, { water, share }) => plus(sum, ionsOfWater(water), share), NONE);
  batch.items.slice(0, itemsAt(batch, moment)).forEach(({ product, planned }, i) => {
    const perLitre = (planned * factors[i]!) / litres;
    if (perLitre > 0) ions = plus(ions, conductingIons(product, 'value'), perLitre);
  });
  return conductivity(ions);
}

type Curve = (x: number) => number;
const ITEM_NODES = [0, 0.5, 1, 2, 4];
const VOLUME_NODES = [0.5, 0.75, 1, 1.4, 2];
const STEP = 0.01;

/** The polynomial through a function's values at the nodes (Lagrange), held level outside them by a straight line. */
function curve(nodes: readonly number[], of: (x: number) => number): Curve {
  const values = nodes.map(of);
  const inside = (x: number): number =>
    nodes.reduce(
      (sum, node, i) =>
        sum + values[i]! * nodes.reduce((p, other, k) => (k === i ? p : (p * (x - other)) / (node - other)), 1),
      0,
    );
  const [first, last] = [nodes[0]!, nodes.at(-1)!];
  return (x) => {
    if (x >= first && x <= last) return inside(x);
    const edge = x < first ? first : last;
    const back = x < first ? edge + STEP : edge - STEP;
    return inside(edge) + ((inside(edge) - inside(back)) / (edge - back)) * (x - edge);
  };
}
