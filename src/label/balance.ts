import type { Nutrient } from '../chemistry/nutrients.js';
import { massShare } from '../chemistry/oxides.js';
import { atomicWeight } from '../chemistry/weights.js';
import type { Analysis } from './analysis.js';
import type { Content } from './composition.js';
import { isForm } from './sources.js';

/** Contents in % of the product. */
export type Contents = ReadonlyMap<Nutrient, Content>;

/** g that 100 g (w/w) or 100 mL (w/v) of the product can hold at most. */
export function massLimit({ basis, density }: Pick<Analysis, 'basis' | 'density'>): number {
  return basis === 'w/v' ? 100 * (density ?? 2.2) : 100;
}

/** The least mass in % that the figures can take up: nitrate as NO3, ammonium as NH3, phosphorus as PO3, silicon as SiO2. */
export function leastMass(stated: Contents): number {
  const low = (nutrient: Nutrient): number => stated.get(nutrient)?.low ?? 0;
  const forms = low('NO3-N') + low('NH4-N') + low('urea-N') + low('other-N');
  const formless = Math.max(0, low('N') - forms);
  return (
    low('NO3-N') / massShare('N', 'NO3') +
    low('urea-N') / massShare('N', 'CO(NH2)2') +
    (low('NH4-N') + formless) / massShare('N', 'NH3') +
    low('other-N') +
    low('P') / massShare('P', 'PO3') +
    low('Si') / massShare('Si', 'SiO2') +
    AS_ELEMENT.reduce((sum, nutrient) => sum + low(nutrient), 0)
  );
}

/**
 * Charge in mmol per 100 mg that is left over at most: by cations, for undeclared anions; by anions, for undeclared cations. Figures are
 * rounded, which may hide some. Trace metals count as M2+, phosphate as H2PO4−; what of it is left over for sodium may be HPO4 2−.
 */
export function chargeLeft(contents: Contents): { forAnions: number; forCations: number } {
  const of = (nutrient: Nutrient, end: 'low' | 'high'): number =>
    (contents.get(nutrient)?.[end] ?? 0) / atomicWeight(isForm(nutrient) ? 'N' : nutrient);
  const sum = (weights: readonly (readonly [Nutrient, number])[], end: 'low' | 'high'): number =>
    weights.reduce((total, [nutrient, charge]) => total + charge * of(nutrient, end), 0);
  const forCations = Math.max(0, sum(ANIONS, 'high') - sum(CATIONS, 'low'));
  return {
    forAnions: Math.max(0, sum(CATIONS, 'high') - sum(ANIONS, 'low')),
    forCations: forCations + Math.min(forCations, of('P', 'high')),
  };
}

/** The contents that printing in whole digits may hide: half a unit of the last digit below a figure, a whole one above. */
export function unrounded(contents: Contents, digits: ReadonlyMap<Nutrient, number>): Contents {
  return new Map(
    [...contents].map(([nutrient, { low, stated, high }]) => {
      const digit = stated === null ? 0 : (digits.get(nutrient) ?? 0);
      return [nutrient, { low: Math.max(0, low - digit / 2), stated, high: high + digit }];
    }),
  );
}

/**
 * The most sodium in % that fits into the mass left. Beside stated anions it needs its own mass only; beside nitrogen without a form it
 * needs that nitrogen to be nitrate, which is heavier than the ammonia it was counted as.
 */
export function sodiumRoom(contents: Contents, room: number): number {
  const sodium = atomicWeight('Na');
  const low = (weights: readonly (readonly [Nutrient, number])[]): number =>
    weights.reduce((total, [n, charge]) => {
      return total + (charge * (contents.get(n)?.low ?? 0)) / atomicWeight(isForm(n) ? 'N' : n);
    }, 0);
  const free = Math.max(0, low(ANIONS) - low(CATIONS)) * sodium;
  return free >= room ? room : free + ((room - free) * sodium) / (sodium + NITRATE_FOR_AMMONIA);
}

const NITRATE_FOR_AMMONIA = atomicWeight('N') / massShare('N', 'NO3') - atomicWeight('N') / massShare('N', 'NH3');

const AS_ELEMENT: readonly Nutrient[] = [
  'K',
  'Ca',
  'Mg',
  'S',
  'Na',
  'Cl',
  'Fe',
  'Mn',
  'Zn',
  'Cu',
  'B',
  'Mo',
  'Co',
  'Ni',
];

const CATIONS: readonly (readonly [Nutrient, number])[] = [
  ['K', 1],
  ['Na', 1],
  ['NH4-N', 1],
  ['Ca', 2],
  ['Mg', 2],
  ['Fe', 2],
  ['Mn', 2],
  ['Zn', 2],
  ['Cu', 2],
  ['Co', 2],
  ['Ni', 2],
];

const ANIONS: readonly (readonly [Nutrient, number])[] = [
  ['NO3-N', 1],
  ['P', 1],
  ['Cl', 1],
  ['S', 2],
];
