/** √(Σ x²), scaled by the largest and with the sum's rounding errors taken in (Kahan 1965). */
export function hypot(...values: readonly number[]): number {
  let largest = 0;
  for (const value of values) {
    if (Number.isNaN(value)) return Number.NaN;
    largest = Math.max(largest, Math.abs(value));
  }
  if (largest === 0 || largest === Number.POSITIVE_INFINITY) return largest;
  let sum = 0;
  let error = 0;
  for (const value of values) {
    const part = Math.abs(value) / largest;
    const term = part * part - error;
    const next = sum + term;
    error = next - sum - term;
    sum = next;
  }
  return Math.sqrt(sum) * largest;
}
