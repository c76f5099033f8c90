/**
 * Numbers as text for people: the one place where a number becomes digits. Never an exponent, never a negative zero; RangeError for NaN
 * and infinity. Every step is fixed by the language standard, so the same number prints the same bytes everywhere.
 */

/** `digits` significant digits without trailing zeros: 0.3333, 12.5, 1234; whole digits are never dropped, rounding dust is 0. */
export function formatNumber(value: number, digits = 4): string {
  return withoutTrailingZeros(formatDigits(value, digits));
}

/** `digits` significant digits, zeros kept: 0.300, 12.0, 1234; rounding dust is 0. */
export function formatDigits(value: number, digits: number): string {
  const shown = Math.abs(finite(value)) < DUST ? 0 : value;
  return shown === 0 ? '0' : fixed(shown, Math.max(0, digits - 1 - exponentOf(shown, digits)));
}

/** Just so many decimals, zeros kept: a pH of 7.0. */
export function formatFixed(value: number, decimals: number): string {
  return fixed(finite(value), decimals);
}

/** At most so many decimals, without trailing zeros: 12.5, 7. */
export function formatUpTo(value: number, decimals: number): string {
  return withoutTrailingZeros(formatFixed(value, decimals));
}

/** How many decimals a number has when it is written with `digits` significant digits: 1 for 4.8, 0 for 47, 5 for 0.00079. */
export function decimalsOf(value: number, digits = 15): number {
  return formatNumber(value, digits).split('.')[1]?.length ?? 0;
}

/** No unit here has amounts so small: what is left below it comes from adding and multiplying. */
const DUST = 1e-12;

function finite(value: number): number {
  if (!Number.isFinite(value)) throw new RangeError(`not a number to print: ${value}`);
  return value;
}

/** The power of ten of the first digit once rounded: 9.9996 is 10.00 in four digits. */
const exponentOf = (value: number, digits: number): number => Number(value.toExponential(digits - 1).split('e')[1]);

/** From 1e21 on the language itself would write an exponent; such a number has no decimals. */
function fixed(value: number, decimals: number): string {
  const text = Math.abs(value) >= 1e21 ? BigInt(value).toString() : value.toFixed(Math.min(decimals, 100));
  return text.replace(/^-(?=0(?:\.0*)?$)/, '');
}

const withoutTrailingZeros = (text: string): string => (text.includes('.') ? text.replace(/\.?0+$/, '') : text);
