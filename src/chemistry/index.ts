export { CACO3_PER_MEQ, nitrificationAcidity, potentialAcidity } from './acidity.js';
export { type Formula, formula, nutrientsPerGram, parseFormula } from './formula.js';
export type { NitrogenForms } from './formula-groups.js';
export { type Ions, ionsFromNutrients, ionsPerGram } from './ions.js';
export { type LinearEc, linearEc, linearEcOfIons, microSiemensPerMg } from './linear-ec.js';
export * from './nutrients.js';
export { elementPerOxide, massShare, OXIDES, oxidePerElement } from './oxides.js';
export { type Salt, saltNamed, saltsOf } from './salts.js';
export { ATOMIC_WEIGHTS, atomicWeight } from './weights.js';
