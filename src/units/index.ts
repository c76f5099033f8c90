export { type Amount, type AmountOptions, parseAmount } from './amount.js';
export { decimalsOf, formatDigits, formatFixed, formatNumber, formatUpTo } from './format.js';
export { commaWarning, readNumber, spelledOut } from './number.js';
export * from './quantity.js';
export { roundDecimals, roundDigits } from './round.js';
export { type Dimension, type Unit, unitNamed } from './table.js';
