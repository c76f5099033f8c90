import { conductivity, NONE } from '../chemistry/conductivity.js';
import type { MilliSiemensPerCm } from '../units/index.js';
import type { Ions } from '../chemistry/ions.js';
import { times } from './counter-ions.js';

/**
 * The ions by which a product conducts as measured: all scaled alike until the model reads the measured figure at 1 g/L or 1 mL/L. What a
 * product without any known ions conducts is counted as potassium chloride.
 */
export function measuredIons(mSPerCm: MilliSiemensPerCm, ions: Ions): Ions {
  const bare = conductivity(NONE);
  const predicted = conductivity(ions) - bare;
  const shape = predicted > 0.01 * mSPerCm ? ions : { ...NONE, K: 10, Cl: 10 };
  let factor = mSPerCm / conductivity(shape);
  // nearly proportional, so a few steps settle it
  for (let step = 0; step < 6; step += 1) factor *= mSPerCm / Math.max(1e-9, conductivity(times(shape, factor)));
  return times(shape, Number.isFinite(factor) ? factor : 0);
}
