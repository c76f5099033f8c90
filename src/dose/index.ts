/** The room's door: a feed in, doses or stock bottles out. */
export { concentrate } from './concentrate.js';
export type { ConcentrateRequest } from './concentrate-request.js';
export type * from './concentrate-result.js';
export { type BulkDensity, bulkDensityOf } from './density.js';
export { type Measure, measuresOf } from './measure.js';
export { type MixingSheet, mixingSheet, type SheetOptions, type SheetStep } from './mixing-sheet.js';
export { planDoses } from './plan.js';
export type {
  Alternative as OtherMeasure,
  DosePlan,
  DoseProof,
  Miss,
  PlannedItem,
  PlanOptions,
} from './plan-types.js';
export { sureDoses } from './robust.js';
export type * from './robust-types.js';
export { type Sequence, sequenceOf, type Turn } from './sequence.js';
export { type Step, stepsOf } from './steps.js';
export { type SureOptions, type Sureness, sureness } from './sure.js';
export { FILLING_SPREAD, type Tool, toolsOf } from './tools.js';
export { amountsOfMix } from './wanted.js';
