import { type MeqPerLitre, type MgCaCO3PerLitre, meqPerLitre, mgCaCO3PerLitre } from '../units/index.js';
import type { Nutrient } from './nutrients.js';
import { atomicWeight } from './weights.js';

/** mg of CaCO3 in one milliequivalent. */
export const CACO3_PER_MEQ = 50.04;

export const meqPerLitreOf = (x: MgCaCO3PerLitre): MeqPerLitre => meqPerLitre(x / CACO3_PER_MEQ);
export const mgCaCO3PerLitreOf = (x: MeqPerLitre): MgCaCO3PerLitre => mgCaCO3PerLitre(x * CACO3_PER_MEQ);

/**
 * Potential acidity after Pierre (1933, J. Assoc. Off. Agric. Chem.; AOAC method), in mg CaCO3 for the given mg of each nutrient; negative is
 * basic. Nitrogen counts half (plants and losses take the other half without leaving acid), phosphorus as one equivalent; the
 * formula from memory. All nitrogen counts alike, whatever its form: nitrate counts as acid here, which the cations that came
 * with it outweigh.
 */
export function potentialAcidity(mg: Partial<Record<Nutrient, number>>): number {
  const meq = EQUIVALENTS.reduce(
    (sum, [nutrient, weight]) => sum + (weight * (mg[nutrient] ?? 0)) / atomicWeight(nutrient),
    0,
  );
  return CACO3_PER_MEQ * meq;
}

/**
 * Acid set free if every ammonium and urea nitrogen turns into nitrate and none is taken up, in mg CaCO3: two equivalents a mole of
 * ammonium nitrogen, one of urea nitrogen (Hunt & Boyd 1981, Trans. Am. Fish. Soc. 110:81). The worst case.
 */
export function nitrificationAcidity(mg: Partial<Record<Nutrient, number>>): number {
  const moles = (form: Nutrient): number => (mg[form] ?? 0) / atomicWeight('N');
  return CACO3_PER_MEQ * (2 * moles('NH4-N') + moles('urea-N'));
}

/** Equivalents of acid per mole of element. */
const EQUIVALENTS: readonly (readonly [Nutrient, number])[] = [
  ['N', 0.5],
  ['S', 2],
  ['Cl', 1],
  ['P', 1],
  ['K', -1],
  ['Na', -1],
  ['Ca', -2],
  ['Mg', -2],
];
