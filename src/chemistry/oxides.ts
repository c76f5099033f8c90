import { formula } from './formula.js';
import type { Nutrient } from './nutrients.js';
import { atomicWeight } from './weights.js';

/** Oxides that labels state, with the nutrient each is counted as. */
export const OXIDES: ReadonlyMap<string, Nutrient> = new Map<string, Nutrient>([
  ['P2O5', 'P'],
  ['K2O', 'K'],
  ['CaO', 'Ca'],
  ['MgO', 'Mg'],
  ['SO3', 'S'],
  ['Na2O', 'Na'],
  ['SiO2', 'Si'],
  ['B2O3', 'B'],
  ['Fe2O3', 'Fe'],
  ['FeO', 'Fe'],
  ['MnO', 'Mn'],
  ['ZnO', 'Zn'],
  ['CuO', 'Cu'],
  ['MoO3', 'Mo'],
]);

/** Mass of an element in one gram of a compound: K in K2O 0.8302, N in NO3 0.2259, Ca in CaCO3 0.4004. */
export function massShare(element: string, compound: string): number {
  const { atoms, molarMass } = formula(compound);
  return ((atoms.get(element) ?? 0) * atomicWeight(element)) / molarMass;
}

/** g of the element in one gram of its oxide. Throws for an oxide outside the table. */
export function elementPerOxide(oxide: string): number {
  const element = OXIDES.get(oxide);
  if (element === undefined) throw new RangeError(`no such oxide: ${oxide}`);
  return massShare(element, oxide);
}

/** g of the oxide that holds one gram of its element. */
export function oxidePerElement(oxide: string): number {
  return 1 / elementPerOxide(oxide);
}
