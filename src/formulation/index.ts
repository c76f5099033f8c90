/**
 * The room's door. Every feed is solved through it and so keeps the EC cap by the full model; whoever needs the program itself gets it on
 * a linearisation that they have to name: that of an answer, or of a mix.
 */
export { amountsOf } from './amounts.js';
export { ceilingOf, chosen, restrictTo, withAtMost } from './at-most.js';
export { bestRatio } from './best-ratio.js';
export {
  type Capped,
  fullEc,
  leastEc,
  linearisationOfMix,
  MOST_ROUNDS,
  standingOf,
  underEcCap,
  withSecondLook,
} from './ec-cap.js';
export { linearisationOfProduct, linearisationOfWater } from './ec-row.js';
export {
  ecRowOf,
  type Formulated,
  type FormulateOptions,
  formulate as programOn,
  type Limited,
  limitOf,
} from './formulate.js';
export { leastOf } from './least-of.js';
export { leastWidth } from './least-width.js';
export {
  cheapest,
  closest,
  type FeedAnswer,
  type FeedFound,
  type FeedTooFew,
  leastLargestMiss,
  solveFeed,
} from './solve-feed.js';
