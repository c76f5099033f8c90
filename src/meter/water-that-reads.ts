import { ionsOfWater } from '../can/ec.js';
import { conductivity } from '../chemistry/conductivity.js';
import type { Water } from '../label/product.js';
import { mgCaCO3PerLitre, mgPerLitre, type MilliSiemensPerCm } from '../units/index.js';

/** A water of the same make-up, as strong as the pen reads it. */
export function waterThatReads(usual: Water, mSPerCm: MilliSiemensPerCm): Water {
  let times = 1;
  const scaled = (): Water => ({
    ...usual,
    mgPerLitre: Object.fromEntries(Object.entries(usual.mgPerLitre).map(([id, x]) => [id, mgPerLitre(x * times)])),
    alkalinity: mgCaCO3PerLitre(usual.alkalinity * times),
  });
  // conductivity rises a little less than the strength
  for (let step = 0; step < STEPS; step += 1) times *= Math.max(mSPerCm, 1e-4) / conductivity(ionsOfWater(scaled()));
  return scaled();
}

const STEPS = 8;
