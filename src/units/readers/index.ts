/** One reader for each quantity; every door (bench key, cell, option, recipe, advice) reads by these and by `parseAmount`. */
export { type Conductivity, inMilliSiemens, readConductivity } from './conductivity.js';
export { type Money, otherCurrency, readMoney } from './money.js';
export { readFigure, readNumber, readPlainNumber, spelledOut, type Writing } from './number.js';
export { PEN_SCALE, readPenScale } from './pen-scale.js';
export { type Comma, commaNotes, type Read, type Unread, unread } from './read.js';
export { readShare, type Share } from './share.js';
export { readTemperature } from './temperature.js';
