/** The room's door: a feed in, stock bottles out. */
export { concentrate } from './concentrate.js';
export type { ConcentrateRequest } from './concentrate-request.js';
export type * from './concentrate-result.js';
