export type { Saturation } from './saturation.js';
export type { IonPart } from './conductivity.js';
export { ionParts, type SolutionChemistry, solutionChemistry } from './solution-chemistry.js';
export { carbonOf, type SolutionIons, type SolutionOptions } from './totals.js';
