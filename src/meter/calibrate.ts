import type { Litres, MilliSiemensPerCm, Millilitres } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfWater, plus } from '../can/ec.js';
import { LEAST_STEP } from '../dose/told-by-pen.js';
import { times } from '../label/counter-ions.js';
import { labelSpread, SPREADS } from './spreads.js';
import { hypot } from '../units/elementary.js';
import { type NoWeight, type SpoonWeight, spoonWeight } from './spoon-weight.js';

/** A number of level spoons of one product, stirred into water between two readings. */
export interface SpoonTrial {
  product: ClosedProduct;
  /** What one spoon holds to the brim, mL, and what the grower calls it. */
  millilitres: Millilitres;
  spoon: string;
  count: number;
  /** mS/cm at 25 °C. */
  before: MilliSiemensPerCm;
  after: MilliSiemensPerCm;
  litres: Litres;
  /** The water of the bench; scaled to the reading before. */
  water?: Water;
}

/** Water measured out by a marked jug for a trial: 2 %. */
const JUG = SPREADS.water;
/** g/L beyond which the conductivity model has not been tested. */
const MOST_GRAMS = 20;

/**
 * The pen as a scale: grams that raise the conductivity of so much water from one reading to the other, by the full model turned round
 * (the model rises with the grams, so halving finds them). The range counts the pen (its common error shared by both readings), the last
 * digit, the jug, the label and how level spoons repeat.
 */
export function weighSpoon(trial: SpoonTrial): SpoonWeight | NoWeight {
  const { product, count, before, after, litres, millilitres } = trial;
  const rise = after - before;
  if (!(rise > 0)) return nothing('no rise', rise);
  if (rise < LEAST_STEP) return nothing('too small', rise);
  const base = background(before, trial.water);
  const ec = (grams: number): number => conductivity(plus(base, conductingIons(product, 'value'), grams / litres));
  const start = ec(0);
  if (!(ec(litres) - start > 0.02)) return nothing('does not conduct', ec(litres) - start);
  const most = MOST_GRAMS * litres;
  if (ec(most) - start < rise) return nothing('beyond the model', rise);
  let [low, high] = [0, most];
  for (let step = 0; step < 60; step += 1) {
    const middle = (low + high) / 2;
    if (ec(middle) - start < rise) low = middle;
    else high = middle;
  }
  const grams = (low + high) / 2;
  // how many per cent more grams one per cent more rise asks for: a little over 1, as conductivity bends
  const bend = rise / ((grams * (ec(grams * 1.01) - ec(grams * 0.99))) / (0.02 * grams));
  const dips = hypot(before * SPREADS.penEach, after * SPREADS.penEach, SPREADS.lastDigit * Math.SQRT2) / rise;
  return spoonWeight({
    id: product.id,
    millilitres,
    spoon: trial.spoon,
    count,
    grams,
    from: [
      { source: 'pen', sd: bend * hypot(SPREADS.penCommon, SPREADS.model, dips) },
      { source: 'water', sd: JUG },
      { source: 'label', sd: labelSpread(product) },
    ],
  });
}

const nothing = (reason: NoWeight['reason'], found: number): NoWeight => ({ status: 'not weighed', reason, found });

/** What the water held before: the water of the bench, or sodium chloride, in the strength that the pen read. */
function background(before: number, water: Water | undefined): ReturnType<typeof ionsOfWater> {
  const bare = conductivity(NONE);
  if (before <= bare) return NONE;
  const own = water && ionsOfWater(water);
  const shape = own && conductivity(own) > 2 * bare ? own : { ...NONE, Na: 1, Cl: 1 };
  let factor = before / conductivity(shape);
  for (let step = 0; step < 6; step += 1) factor *= before / conductivity(times(shape, factor));
  return times(shape, factor);
}
