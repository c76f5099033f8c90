export type { Saturation } from './saturation.js';
export { type SolutionChemistry, solutionChemistry } from './solution-chemistry.js';
export type { SolutionIons, SolutionOptions } from './totals.js';
