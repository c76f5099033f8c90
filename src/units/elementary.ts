/**
 * exp, log, log10, pow, sin, cos and hypot from a library that works them out with + − × ÷ √ alone, which IEEE 754 fixes to the last bit. The
 * language leaves `Math.exp` and its kin to each engine, and they differ in the last digits (Node 20 and Chromium 156 in one of ten values of
 * exp): an answer would depend on where it is worked out, and two machines would print different bytes.
 */
import hypotOfTwo from '@stdlib/math-base-special-hypot';

export { default as cos } from '@stdlib/math-base-special-cos';
export { default as exp } from '@stdlib/math-base-special-exp';
export { default as log } from '@stdlib/math-base-special-ln';
export { default as log10 } from '@stdlib/math-base-special-log10';
export { default as pow } from '@stdlib/math-base-special-pow';
export { default as sin } from '@stdlib/math-base-special-sin';

/** √(Σ x²), of any count of numbers. */
export const hypot = (...values: readonly number[]): number => values.reduce((sum, x) => hypotOfTwo(sum, x), 0);

/** 10 to the power of a whole number, as it is written: 1e-3. */
export const powerOfTen = (n: number): number => Number(`1e${n}`);
