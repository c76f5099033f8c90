/**
 * The door of the small programs: a dozen items, each of which takes one of its levels (amounts that come in steps), so that rows hold at the
 * least cost. Solved in milliseconds by a dual simplex within branch and bound; no certificate stands beside an answer, so whoever asks checks
 * the rows (`rowViolation`), and takes the answer for the best only where `complete` says that the search ended.
 *
 *     searchLevels(
 *       [{ target: 2, levels: [0, 1, 3], lows: [0, 1, 3], highs: [0, 1, 3], costs: [1, 0.5, 0.5] }],
 *       [{ terms: [1], upper: 2.5, size: 2.5 }],
 *     )
 *     // → { picks: [1], cost: 0.5, violation: 0, nodes: …, complete: true }
 */
export { type Item, rowViolation, TOLERANCE, type UpperRow } from './items.js';
export { type Found, type SearchOptions, searchLevels } from './search.js';
