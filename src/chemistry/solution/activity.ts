import { SPECIES } from './species.js';
import type { Water } from './temperature.js';

/**
 * log10 of the activity coefficient of each species, written into `out`: Truesdell & Jones 1974 (extended Debye–Hückel with a linear
 * term), uncharged species by the linear term alone.
 */
export function writeActivities(ionicStrength: number, water: Water, out: Float64Array): void {
  const strength = Math.min(ionicStrength, STRONGEST);
  const root = Math.sqrt(strength);
  SPECIES.forEach(({ charge, size, b }, i) => {
    const debye = charge === 0 ? 0 : (-water.a * charge * charge * root) / (1 + water.b * size * root);
    out[i] = debye + b * strength;
  });
}

/** Beyond this ionic strength (mol/kg) the linear term would run away; no feed or stock comes near. */
const STRONGEST = 12;

/** Activity of water: Raoult's law with the coefficient 0.017 per mol/kg of dissolved species (Garrels & Christ 1965). */
export function waterActivity(dissolved: number): number {
  return Math.max(0.3, 1 - 0.017 * dissolved);
}
