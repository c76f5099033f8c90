export { type Amount, type AmountOptions, parseAmount } from './amount.js';
export { BOUNDS, type Bounded, type Bounds, isWithin, MOST, rangeText } from './bounds.js';
export { cellText, safeCell } from './cell.js';
export { decimalsOf, formatDigits, formatFixed, formatNumber, formatUpTo } from './format.js';
export { byName, identityOf, invisibleIn } from './identity.js';
export * from './quantity.js';
export * from './readers/index.js';
export { roundDecimals, roundDigits } from './round.js';
export { type Dimension, type Unit, unitNamed } from './table.js';
