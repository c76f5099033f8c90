import { LN2_HI, LN2_LO, twoTo, withHighWord } from './words.js';

/** A half and three halves of ln 2, as far as the high word tells. */
const [HALF, THREE_HALVES] = [withHighWord(0, 0x3fd62e43), withHighWord(0, 0x3ff0a2b2)];

/** e to the power of x. */
export function exp(x: number): number {
  if (!(x <= 709.782712893384)) return Number.isNaN(x) ? x : Number.POSITIVE_INFINITY;
  if (x < -745.1332191019411) return 0;
  if (x === 1) return Math.E;
  const size = Math.abs(x);
  if (size < 2 ** -28) return 1 + x;
  let k = 0;
  let high = x;
  let low = 0;
  if (size >= HALF) {
    const side = x < 0 ? -1 : 1;
    k = size < THREE_HALVES ? side : Math.trunc(Math.LOG2E * x + side * 0.5);
    high = x - k * LN2_HI;
    low = k * LN2_LO;
  }
  const r = high - low;
  const t = r * r;
  const c =
    r -
    t *
      (0.16666666666666602 +
        t *
          (-0.0027777777777015593 +
            t * (0.00006613756321437934 + t * (-0.0000016533902205465252 + t * 4.1381367970572385e-8))));
  if (k === 0) return 1 - ((r * c) / (c - 2) - r);
  const y = 1 - (low - (r * c) / (2 - c) - high);
  if (k >= -1021 && k < 1024) return y * twoTo(k);
  return k === 1024 ? y * 2 * twoTo(1023) : y * twoTo(k + 1000) * 2 ** -1000;
}
