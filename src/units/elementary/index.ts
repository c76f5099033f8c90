/**
 * exp, log, log10, cos, sin and hypot made of + − × ÷ √ alone, which IEEE 754 fixes to the last bit. The language leaves `Math.exp` and its kin to
 * each engine, and they differ in the last digits (Node 20 and Chromium 156 in one of ten values of exp): an answer would depend on where it
 * is worked out, and two machines would print different bytes. All but hypot follow fdlibm 5.3, Copyright (C) 1993 by Sun Microsystems, Inc.
 * ("Permission to use, copy, modify, and distribute this software is freely granted, provided that this notice is preserved."); its error
 * is below 1 unit in the last place.
 */
export { cos, sin } from './angles.js';
export { exp } from './exp.js';
export { hypot } from './hypot.js';
export { log, log10 } from './log.js';
export { pow, powerOfTen } from './pow.js';
