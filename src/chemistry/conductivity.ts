import { type MilliSiemensPerCm, milliSiemensOf } from '../units/index.js';
import type { Ions } from './ions.js';
import { type IonPart, ionParts, type SolutionChemistry, solutionChemistry } from './solution/index.js';

/**
 * The chemistry of a solution, for ions with their alkalinity. An alkalinity of 0 is one that is known: charge that chelates and trace metals
 * leave over must not pass for acid or alkali.
 */
export function chemistryOf(ions: Ions, options: { temperatureC?: number; air?: boolean } = {}): SolutionChemistry {
  const { temperatureC = 25, air = true } = options;
  const key = `${NAMES.map((name) => ions[name]).join()} ${temperatureC} ${air}`;
  const before = asked.get(key);
  if (before) return before;
  const { alkalinity, ...strong } = ions;
  const found = solutionChemistry({ ...strong, HCO3: alkalinity === 0 ? KNOWN_ZERO : alkalinity }, options);
  if (asked.size >= MOST_KEPT) asked.delete(asked.keys().next().value!);
  asked.set(key, found);
  return found;
}

/** The conductivity of the same solution at 25 °C, open to air, ion by ion: the parts add up to what `conductivity` tells. */
export function conductivityParts({ alkalinity, ...strong }: Ions): IonPart[] {
  return ionParts({ ...strong, HCO3: alkalinity === 0 ? KNOWN_ZERO : alkalinity }, { temperatureC: 25, air: true });
}

/**
 * The answers to the last solutions asked: doses, limits, readings and margins of one mix ask for the same ones many times over. Kept by
 * value, so an answer is the same whatever was asked before.
 */
const asked = new Map<string, SolutionChemistry>();
const MOST_KEPT = 1024;

const KNOWN_ZERO = 1e-12;

/** mS/cm at 25 °C by the full model, open to air. */
export function conductivity(ions: Ions): MilliSiemensPerCm {
  return milliSiemensOf(chemistryOf(ions).ec25);
}

/** Pure water. */
export const NONE: Ions = {
  K: 0,
  Ca: 0,
  Mg: 0,
  Na: 0,
  NH4: 0,
  NO3: 0,
  P: 0,
  SO4: 0,
  Cl: 0,
  alkalinity: 0,
  carbonate: 0,
  silicate: 0,
  borate: 0,
  citrate: 0,
  acetate: 0,
};

const NAMES = Object.keys(NONE) as (keyof Ions)[];
