/**
 * A number for people: `digits` significant digits, never an exponent, no trailing zeros, whole digits never dropped. Every step is
 * fixed by the language standard, so the same number prints the same bytes everywhere. Throws RangeError for NaN and infinity.
 */
export function formatNumber(value: number, digits = 4): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a number to print: ${value}`);
  const exponent = Number(value.toExponential(digits - 1).split('e')[1]);
  return trimmed(plain(value, Math.max(0, digits - 1 - exponent)));
}

/** A fixed number of decimals without trailing zeros and without a negative zero. */
export function formatFixed(value: number, decimals: number): string {
  if (!Number.isFinite(value)) throw new RangeError(`not a number to print: ${value}`);
  return trimmed(plain(value, decimals));
}

function plain(value: number, decimals: number): string {
  return Math.abs(value) >= 1e21 ? BigInt(value).toString() : value.toFixed(Math.min(decimals, 100));
}

function trimmed(text: string): string {
  const short = text.includes('.') ? text.replace(/\.?0+$/, '') : text;
  return short === '-0' ? '0' : short;
}
