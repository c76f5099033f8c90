/** The number nearest to `x` with so many significant digits: 0.1 + 0.2 is 0.3 in twelve of them. */
export function roundDigits(x: number, digits: number): number {
  return Number(x.toPrecision(digits));
}

/** The number nearest to `x` with so many decimals. */
export function roundDecimals(x: number, decimals: number): number {
  return Number(x.toFixed(decimals));
}
