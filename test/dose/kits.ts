import type { Kit } from '../../src/catalog/bench-types.js';

/** mL of a US teaspoon: a 768th of the US gallon of 231 cubic inches (NIST Handbook 44, appendix C, from memory). */
export const TSP = 3785.411784 / 768;

/** Level spoons from 1 tsp down to the given part of one. */
export const spoonsDownTo = (part: number): Kit['spoons'] =>
  [1, 2, 4, 8, 16, 32, 64]
    .filter((n) => n <= part)
    .map((n) => ({ label: n === 1 ? '1 tsp' : `1/${n} tsp`, millilitres: TSP / n }));

/** What a careful grower has: spoons to 1/32 tsp, a 0.01 g scale, a 1 mL syringe. */
export const USUAL: Kit = { spoons: spoonsDownTo(32), scaleStepGrams: 0.01, syringeMillilitres: 1 };

/** No scale. */
export const SPOONS: Kit = { spoons: spoonsDownTo(32), syringeMillilitres: 1 };
