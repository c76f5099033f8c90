/** The room's door: requests in, results out. */
export { assess } from './assess.js';
export { blend } from './blend.js';
export { bringerOf, bringerOfWater } from './bringers.js';
export { type Bringer, type Clouding, type CloudingLine, cloudingOf, type Verdict } from './clouding.js';
export { frontier } from './frontier.js';
export { purchase } from './purchase.js';
export type * from './purchase-types.js';
export { reach } from './reach.js';
export { type Meeting, meetings } from './meeting.js';
export { closeProduct, closeShelf, ionsOf } from './close.js';
export { type LabelFacts, labelFacts } from './label-facts.js';
export { parseRecipe, type Recipe, type RecipeLine } from './recipe.js';
export type { FeedRequest } from './request.js';
export type * from './results.js';
export { substitutes } from './substitutes.js';
export type * from './substitutes-types.js';
