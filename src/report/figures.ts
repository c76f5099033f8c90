/** Provisional. */
export function figure(value: number, digits = 3): string {
  if (value === 0 || !Number.isFinite(value)) return '0';
  const decimals = Math.min(12, Math.max(0, digits - 1 - Math.floor(Math.log10(Math.abs(value)))));
  const text = value.toFixed(decimals);
  return text.includes('.') ? text.replace(/\.?0+$/, '') : text;
}
export const percent = (share: number): string => `${figure(100 * share)} %`;
export const money = (value: number, currency: string): string => `${figure(value)} ${currency}`.trim();

/** `1.64 g`, `0.4 mg`, `2.5 mL`. */
export function amount(value: number, unit: 'g' | 'mL'): string {
  return unit === 'g' && value !== 0 && value < 0.01 ? `${figure(value * 1000)} mg` : `${figure(value)} ${unit}`;
}
