/** The door of the small programs: a dozen variables, solved in microseconds, whose answers are checked where they are used. */
export { type Choices, DUST, rowViolation, type UpperRow } from './choices.js';
export { type Found, type SearchOptions, searchDoses } from './search.js';
