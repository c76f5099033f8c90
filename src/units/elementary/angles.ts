import { highWord, withHighWord } from './words.js';

/** The cosine of an angle in radians, up to some hundred thousand turns. */
export function cos(x: number): number {
  const { quarter, rest, tail } = reduced(Math.abs(x));
  const value = quarter % 2 === 0 ? cosNear(rest, tail) : sinNear(rest, tail);
  return quarter === 1 || quarter === 2 ? -value : value;
}

/** The sine of an angle in radians, up to some hundred thousand turns. */
export function sin(x: number): number {
  if (x === 0) return x;
  const { quarter, rest, tail } = reduced(Math.abs(x));
  const value = quarter % 2 === 0 ? sinNear(rest, tail) : cosNear(rest, tail);
  return quarter >= 2 !== x < 0 ? -value : value;
}

/** An angle less whole quarter turns, as a sum of two numbers. */
function reduced(x: number): { quarter: number; rest: number; tail: number } {
  if (x <= 0.7853981633974483) return { quarter: 0, rest: x, tail: 0 };
  const turns = Math.trunc(x * 0.6366197723675814 + 0.5);
  let r = x - turns * 1.5707963267341256;
  let w = turns * 6.077100506506192e-11;
  let rest = r - w;
  // where much has cancelled, the next digits of π/2 are taken in
  if ((highWord(x) >> 20) - ((highWord(rest) >> 20) & 0x7ff) > 16) {
    const before = r;
    w = turns * 6.077100506303966e-11;
    r = before - w;
    w = turns * 2.0222662487959506e-21 - (before - r - w);
    rest = r - w;
  }
  return { quarter: turns % 4, rest, tail: r - rest - w };
}

function sinNear(x: number, tail: number): number {
  if (Math.abs(x) < 7.450580596923828e-9) return x;
  const z = x * x;
  const v = z * x;
  const r =
    0.00833333333332249 +
    z *
      (-0.0001984126982985795 +
        z * (0.0000027557313707070068 + z * (-2.5050760253406863e-8 + z * 1.58969099521155e-10)));
  if (tail === 0) return x + v * (-0.16666666666666632 + z * r);
  return x - (z * (0.5 * tail - v * r) - tail - v * -0.16666666666666632);
}

function cosNear(x: number, tail: number): number {
  const size = highWord(x) & 0x7fffffff;
  if (size < 0x3e400000) return 1;
  const z = x * x;
  const r =
    z *
    (0.0416666666666666 +
      z *
        (-0.001388888888887411 +
          z *
            (0.00002480158728947673 +
              z * (-2.7557314351390663e-7 + z * (2.087572321298175e-9 + z * -1.1359647557788195e-11)))));
  if (size < 0x3fd33333) return 1 - (0.5 * z - (z * r - x * tail));
  const q = size > 0x3fe90000 ? 0.28125 : withHighWord(0, size - 0x200000);
  return 1 - q - (0.5 * z - q - (z * r - x * tail));
}
