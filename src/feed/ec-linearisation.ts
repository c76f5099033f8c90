import type { Ions } from '../chemistry/ions.js';

/** The full conductivity model as a linearisation that touches it at one mix: mS/cm = constant + Σ slope · mmol/L. */
export interface EcLinearisation {
  /** Where it touches, in words for the proof. */
  at: string;
  constant: number;
  slope: Ions;
}
