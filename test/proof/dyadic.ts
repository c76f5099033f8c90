/** whole · 2^exponent: what every double is, without rounding. */
export interface Dyadic {
  whole: bigint;
  exponent: number;
}

/** num / den, den > 0; not reduced. */
export interface Ratio {
  num: bigint;
  den: bigint;
}

const view = new DataView(new ArrayBuffer(8));

/** A finite double, exactly; `whole` is odd, or 0. */
export function dyadic(value: number): Dyadic {
  if (!Number.isFinite(value)) throw new RangeError(`${value} is no fraction`);
  if (value === 0) return { whole: 0n, exponent: 0 };
  view.setFloat64(0, value);
  const bits = view.getBigUint64(0);
  const raw = Number((bits >> 52n) & 0x7ffn);
  const fraction = bits & ((1n << 52n) - 1n);
  const whole = raw === 0 ? fraction : fraction | (1n << 52n);
  const zeros = trailingZeros(whole);
  const odd = whole >> BigInt(zeros);
  return { whole: value < 0 ? -odd : odd, exponent: (raw || 1) - 1075 + zeros };
}

/** value · 2^shift, which must come out whole. */
export function shifted({ whole, exponent }: Dyadic, shift: number): bigint {
  if (whole === 0n) return 0n;
  if (exponent + shift < 0) throw new RangeError('not a whole number after the shift');
  return whole << BigInt(exponent + shift);
}

export function ratio({ whole, exponent }: Dyadic): Ratio {
  return exponent >= 0 ? { num: whole << BigInt(exponent), den: 1n } : { num: whole, den: 1n << BigInt(-exponent) };
}

export function ratioOf(value: number): Ratio {
  return ratio(dyadic(value));
}

export function plus(a: Ratio, b: Ratio): Ratio {
  return a.den === b.den
    ? { num: a.num + b.num, den: a.den }
    : { num: a.num * b.den + b.num * a.den, den: a.den * b.den };
}

export function minus(a: Ratio, b: Ratio): Ratio {
  return plus(a, { num: -b.num, den: b.den });
}

export function times(a: Ratio, b: Ratio): Ratio {
  return { num: a.num * b.num, den: a.den * b.den };
}

/** The sum of products of doubles, exactly: terms of a row, or costs. */
export function sumOfProducts(a: readonly number[], b: readonly number[]): Ratio {
  const terms = a.map((value, k) => {
    const [one, other] = [dyadic(value), dyadic(b[k]!)];
    return { whole: one.whole * other.whole, exponent: one.exponent + other.exponent };
  });
  const least = terms.reduce((low, { whole, exponent }) => (whole === 0n ? low : Math.min(low, exponent)), 0);
  const whole = terms.reduce((sum, term) => sum + shifted(term, -least), 0n);
  return ratio({ whole, exponent: least });
}

/** The double next to a ratio, within a unit or two in its last place. */
export function toNumber({ num, den }: Ratio): number {
  if (num === 0n) return 0;
  const size = num < 0n ? -num : num;
  const shift = 64 - (bitLength(size) - bitLength(den));
  const quotient = shift >= 0 ? (size << BigInt(shift)) / den : size / (den << BigInt(-shift));
  // in two steps, so that neither power of two leaves the range of doubles before the value does
  const half = Math.trunc(-shift / 2);
  const value = Number(quotient) * 2 ** half * 2 ** (-shift - half);
  return num < 0n ? -value : value;
}

export function bitLength(whole: bigint): number {
  return whole === 0n ? 0 : whole.toString(16).length * 4;
}

function trailingZeros(whole: bigint): number {
  return (whole & -whole).toString(2).length - 1;
}
