/** The library's public door: the functions behind every command, and the readers that feed them. */
export * from './catalog/index.js';
export * from './chemistry/index.js';
export * from './dose/index.js';
export * from './formulation/index.js';
export * from './label/index.js';
export * from './meter/index.js';
export { checked, type Checked, nearest, type Problem, problemLine, Refusal, unwrap, type Where } from './problem.js';
export * from './programme/index.js';
export { type Amount, formatNumber, parseAmount } from './units/index.js';
