/** The library's public door: the functions behind every command, and the readers that feed them. */
export { type BulkDensity, bulkDensityOf } from './dose/density.js';
export { type Measure, measuresOf } from './dose/measure.js';
export { planDoses } from './dose/plan.js';
export type {
  Alternative as OtherMeasure,
  DosePlan,
  Violation,
  PlannedItem,
  PlanOptions,
} from './dose/plan-types.js';
export type * from './dose/findings.js';
export type { DoseProof } from './dose/proof.js';
export { type Tool, toolsOf } from './dose/tools.js';
export { amountsOfMix } from './dose/wanted.js';
export { sureDoses } from './chance/robust.js';
export type * from './chance/robust-types.js';
export { type SureOptions, type Sureness, sureness } from './chance/sure.js';
export {
  type MixingSheet,
  mixingSheet,
  type NoSheet,
  type SheetOptions,
  type SheetStep,
} from './sheet/mixing-sheet.js';
export { type Sequence, sequenceOf, type Turn } from './can/sequence.js';
export { type Step, stepsOf } from './sheet/steps.js';
export { concentrate } from './stock/concentrate.js';
export type { ConcentrateRequest } from './stock/concentrate-request.js';
export type * from './stock/concentrate-result.js';
export { translateAdvice } from './advice/translate-advice.js';
export type { OwnFeed } from './advice/own-feed.js';
export { isAdvice, parseAdvice } from './advice/parse.js';
export type * from './advice/findings.js';
export type * from './advice/types.js';
export { assess } from './advice/assess.js';
export { parseRecipe, type Recipe, type RecipeLine } from './advice/recipe.js';
export { blend } from './blend/blend.js';
export { frontier } from './blend/frontier.js';
export { reach } from './blend/reach.js';
export { purchase } from './purchase/purchase.js';
export type * from './purchase/types.js';
export { substitutes } from './purchase/substitutes.js';
export type * from './purchase/substitutes-types.js';
export { type IonSource, type Clouding, type CloudingLine, cloudingOf, type Verdict } from './can/clouding.js';
export { type Meeting, meetings } from './can/meeting.js';
export { type LabelFacts, labelFacts } from './can/label-facts.js';
export { closeProduct, closeShelf } from './label/close.js';
export type { FeedRequest } from './feed/request.js';
export type * from './feed/results.js';
export * from './catalog/index.js';
export * from './chemistry/index.js';
export * from './label/index.js';
export * from './meter/index.js';
export { checked, type Checked, nearest, type Problem, problemLine, Refusal, unwrap, type Where } from './problem.js';
export * from './programme/index.js';
export { type Amount, formatNumber, parseAmount } from './units/index.js';
