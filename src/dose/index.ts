/** The room's door: a feed in, stock bottles out. */
export { type ConcentrateRequest, concentrate } from './concentrate.js';
export type * from './concentrate-result.js';
