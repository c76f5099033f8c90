import type { Kit } from '../../src/catalog/bench-types.js';
import type { WithoutUnits } from '../../src/units/index.js';

/** A kit in plain numbers, in the units that its fields are named after. */
export const kitOf = (plain: WithoutUnits<Kit>): Kit => plain as Kit;

/** mL of a US teaspoon: a 768th of the US gallon of 231 cubic inches (NIST Handbook 44, appendix C, from memory). */
export const TSP = 3785.411784 / 768;

/** Level spoons from 1 tsp down to the given part of one. */
export const spoonsDownTo = (part: number): Kit['spoons'] =>
  kitOf({
    spoons: [1, 2, 4, 8, 16, 32, 64]
      .filter((n) => n <= part)
      .map((n) => ({ label: n === 1 ? '1 tsp' : `1/${n} tsp`, millilitres: TSP / n })),
  }).spoons;

/** What a careful grower has: spoons to 1/32 tsp, a 0.01 g scale, a 1 mL syringe. */
export const USUAL = kitOf({ spoons: spoonsDownTo(32), scaleStepGrams: 0.01, syringeMillilitres: 1 });

/** No scale. */
export const SPOONS = kitOf({ spoons: spoonsDownTo(32), syringeMillilitres: 1 });
