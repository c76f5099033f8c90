import type { MilliSiemensPerCm } from '../units/index.js';
import type { Ions } from '../chemistry/ions.js';

/**
 * Where a linearisation touches the model. `aims`: where a feed in the proportions of the programme's aims reads the cap; `round`: at
 * the mix of an earlier round; `way`: where the way to that mix crosses the cap; `least`: at the least EC found with every other
 * limit kept; `mix`: at a mix that was given.
 */
export type EcTouch =
  | { at: 'aims' }
  | { at: 'round' | 'way'; mSPerCm: MilliSiemensPerCm; round: number }
  | { at: 'least'; mSPerCm: MilliSiemensPerCm }
  | { at: 'mix'; mSPerCm: MilliSiemensPerCm };

/** The full conductivity model as a linearisation that touches it at one mix: mS/cm = constant + Σ slope · mmol/L. */
export interface EcLinearisation {
  touches: EcTouch;
  constant: number;
  slope: Ions;
}

/** The linearisation that an answer stands on, where the EC cap holds it back. */
export interface EcStanding {
  touches: EcTouch;
  /** Rounds of linearisation until the mix stood at the cap. */
  round: number;
  /** False where the mix is over the cap by the full model after all rounds. */
  keeps: boolean;
}
