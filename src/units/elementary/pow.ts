import { headOf, highWord, SMALLEST, twoTo, withHighWord } from './words.js';

/** x to the power of y; below zero only for a whole y. */
export function pow(x: number, y: number): number {
  if (y === 2) return x * x;
  if (y === 1) return x;
  if (y === 0 || x === 1) return 1;
  if (x === 0) return y > 0 ? 0 : Number.POSITIVE_INFINITY;
  if (x < 0 && Number.isInteger(y)) return y % 2 === 0 ? pow(-x, y) : -pow(-x, y);
  if (!(x > 0) || !Number.isFinite(x) || !(Math.abs(y) < 2 ** 31)) return outside(x, y);
  if (y === -1) return 1 / x;
  if (y === 0.5) return Math.sqrt(x);
  // log2 x = n + log2 of what is left, as a sum of two numbers
  let n = x < SMALLEST ? -53 : 0;
  const scaled = x < SMALLEST ? x * 2 ** 53 : x;
  const word = highWord(scaled);
  n += (word >> 20) - 0x3ff;
  const bits = word & 0xfffff;
  let high = bits | 0x3ff00000;
  const near = bits > 0x3988e && bits < 0xbb67a ? 1 : 0;
  if (bits >= 0xbb67a) {
    n += 1;
    high -= 0x100000;
  }
  const base = near === 1 ? 1.5 : 1;
  const ax = withHighWord(scaled, high);
  let u = ax - base;
  let v = 1 / (ax + base);
  const ss = u * v;
  const sHigh = headOf(ss);
  let tHigh = withHighWord(0, ((high >> 1) | 0x20000000) + 0x80000 + (near << 18));
  let tLow = ax - (tHigh - base);
  const sLow = v * (u - sHigh * tHigh - sHigh * tLow);
  let s2 = ss * ss;
  let r =
    s2 *
    s2 *
    (0.5999999999999946 +
      s2 *
        (0.4285714285785502 +
          s2 *
            (0.33333332981837743 + s2 * (0.272728123808534 + s2 * (0.23066074577556175 + s2 * 0.20697501780033842)))));
  r += sLow * (sHigh + ss);
  s2 = sHigh * sHigh;
  tHigh = headOf(3 + s2 + r);
  tLow = r - (tHigh - 3 - s2);
  u = sHigh * tHigh;
  v = sLow * tHigh + tLow * ss;
  let pHigh = headOf(u + v);
  let pLow = v - (pHigh - u);
  const zHigh = 0.9617967009544373 * pHigh;
  const zLow = -7.028461650952758e-9 * pHigh + pLow * 0.9617966939259756 + (near === 1 ? 1.350039202129749e-8 : 0);
  const add = near === 1 ? 0.5849624872207642 : 0;
  const t1 = headOf(zHigh + zLow + add + n);
  const t2 = zLow - (t1 - n - add - zHigh);
  // times y, and 2 to the power of that
  const yHigh = headOf(y);
  pLow = (y - yHigh) * t1 + y * t2;
  pHigh = yHigh * t1;
  const z = pLow + pHigh;
  if (z >= 1024) return Number.POSITIVE_INFINITY;
  if (z <= -1075) return 0;
  return twoToSum(pHigh, pLow);
}

/** 2^(high + low). */
function twoToSum(high: number, low: number): number {
  const whole = Math.abs(high + low) > 0.5 ? Math.trunc(high + low + (high + low < 0 ? -0.5 : 0.5)) : 0;
  const rest = high - whole;
  const t = headOf(low + rest);
  const u = t * 0.6931471824645996;
  const v = (low - (t - rest)) * Math.LN2 + t * -1.904654299957768e-9;
  const z = u + v;
  const w = v - (z - u);
  const zz = z * z;
  const c =
    z -
    zz *
      (0.16666666666666602 +
        zz *
          (-0.0027777777777015593 +
            zz * (0.00006613756321437934 + zz * (-0.0000016533902205465252 + zz * 4.1381367970572385e-8))));
  // the correction stands under the division, as it does in Node 20, so that figures stay what they were (fdlibm has it after)
  const y = 1 - ((z * c) / (c - 2 - (w + z * w)) - z);
  if (whole >= -1021 && whole < 1024) return y * twoTo(whole);
  return whole >= 1024 ? y * 2 * twoTo(1023) : y * twoTo(whole + 1000) * 2 ** -1000;
}

/** 10 to the power of a whole number, as it is written: 1e-3. */
export const powerOfTen = (n: number): number => Number(`1e${n}`);

/** What no question of ours asks. */
function outside(x: number, y: number): never {
  throw new RangeError(`${x} to the power of ${y}`);
}
