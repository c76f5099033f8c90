import { cell, HIGH, highWord, LN2_HI, LN2_LO, SMALLEST, withHighWord, words } from './words.js';

/** The natural logarithm; NaN below zero. */
export function log(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return x === 0 ? Number.NEGATIVE_INFINITY : x > 0 ? x : Number.NaN;
  // x = 2^k · (1 + f) with 1 + f near 1
  const below = x < SMALLEST;
  cell[0] = below ? x * 2 ** 54 : x;
  const word = words[HIGH]!;
  const high = word & 0xfffff;
  const up = (high + 0x95f64) & 0x100000;
  words[HIGH] = high | (up ^ 0x3ff00000);
  const f = cell[0]! - 1;
  const k = (word >> 20) - 1023 + (up >> 20) - (below ? 54 : 0);
  if ((0xfffff & (2 + high)) < 3) {
    if (f === 0) return k * LN2_HI + k * LN2_LO;
    const r = f * f * (0.5 - 0.3333333333333333 * f);
    return k === 0 ? f - r : k * LN2_HI - (r - k * LN2_LO - f);
  }
  const s = f / (2 + f);
  const z = s * s;
  const w = z * z;
  const r =
    z * (0.6666666666666735 + w * (0.2857142874366239 + w * (0.1818357216161805 + w * 0.14798198605116586))) +
    w * (0.3999999999940942 + w * (0.22222198432149784 + w * 0.15313837699209373));
  if (((high - 0x6147a) | (0x6b851 - high)) > 0) {
    const half = 0.5 * f * f;
    return k === 0 ? f - (half - s * (half + r)) : k * LN2_HI - (half - (s * (half + r) + k * LN2_LO) - f);
  }
  return k === 0 ? f - s * (f - r) : k * LN2_HI - (s * (f - r) - k * LN2_LO - f);
}

/** The logarithm to base 10. */
export function log10(x: number): number {
  if (!(x > 0) || x === Number.POSITIVE_INFINITY) return log(x);
  const below = x < SMALLEST;
  const scaled = below ? x * 2 ** 54 : x;
  const word = highWord(scaled);
  const k = (word >> 20) - 1023 - (below ? 54 : 0);
  const under = k < 0 ? 1 : 0;
  const y = k + under;
  const rest = withHighWord(scaled, (word & 0xfffff) | ((0x3ff - under) << 20));
  return y * 3.694239077158931e-13 + Math.LOG10E * log(rest) + y * 0.30102999566361177;
}
