/** The solver's only door: programs in, certified verdicts out. Nothing in this room knows what the columns are. */
export { boxed } from './boxed.js';
export { ProgramError, type ProgramProblem } from './check.js';
export { boundsAsRows, type Conflict, type ConflictRow, conflict } from './conflict.js';
export type { Claim, Engine, EngineLimits } from './engine.js';
export { highs } from './highs.js';
export type {
  Best,
  Column,
  Infeasible,
  LinearProgram,
  Optimal,
  Row,
  Unbounded,
  Uncertified,
  Verdict,
} from './program.js';
export { type CostRange, costRange, type Extreme, entryPrice, type Reach, reach } from './range.js';
export { type Region, regionOf } from './region.js';
export { leastRelaxation, type Move, type Relaxation, singleRelaxations } from './relax.js';
export { type ShadowPrice, type Side, shadowPrice } from './shadow.js';
export { simplex } from './simplex.js';
export { type SolveOptions, solve } from './solve.js';
export type { Table, TableRow } from './table.js';
