export { type Amount, type AmountOptions, parseAmount } from './amount.js';
export { formatFixed, formatNumber } from './format.js';
export { readNumber } from './number.js';
export * from './quantity.js';
export { type Dimension, type Unit, unitNamed } from './table.js';
