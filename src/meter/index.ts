/** The room's door: readings in, what happened and what to do out. */
export type { Batch, BatchItem, Moment, PenUse, Reading, Shown } from './batch.js';
export { type SpoonTrial, weighSpoon } from './calibrate.js';
export type { NoWeight, SpoonWeight } from './spoon-weight.js';
export { type ScaleTrial, weighOnScale } from './weigh.js';
export type { LookAt } from './beyond.js';
export type { Cause, Fault, Variant } from './cause.js';
export { batchOfPlan, batchOfRecipe } from './from-plan.js';
export {
  type ActualLine,
  judge,
  type Judged as JudgedReading,
  type Judgement,
  type ReadingLine,
  rightReading,
  type Span,
} from './judge.js';
export { meter, type MeterRequest } from './meter.js';
export type { MeterNote, MeterResult, PlannedBatch } from './meter-types.js';
export { chooseRemedy, type RescueOptions } from './choose-remedy.js';
export type * from './remedy.js';
export { doingOf, rescue } from './rescue.js';
export { checkPen, type PenCheck, type StandardTrial, type Suspect } from './standard.js';
export type { Verdict } from './verdict.js';
export { type Told, toldOf } from './told.js';
export { waterThatReads } from './water-that-reads.js';
export type { Elsewhere, OtherUse } from './elsewhere.js';
