import { formatNumber } from '../units/index.js';

/**
 * Three significant digits are what a spoon, a scale or a pen can use; whole digits are never dropped. A figure that lies on its limit
 * but for rounding dust is printed like the limit: 12.749999999999963 and 12.75 are both 12.8.
 */
export const figure = (value: number): string => formatNumber(value * (1 + DUST), 3);

/** Far above the dust of a linear program, far below half of the third digit. */
const DUST = 1e-9;

/** `12.5 %` of a share from 0 to 1. */
export const percent = (share: number): string => `${figure(100 * share)} %`;

/** `0.00412 EUR`; without a currency the bare number. Less than a thousandth of a cent is only said to be so. */
export function money(value: number, currency: string): string {
  return `${value > 0 && value < 0.00001 ? '<0.00001' : figure(value)} ${currency}`.trim();
}

/** `1.64 g`, `0.4 mg`, `2.5 mL`; what no kit can measure is only said to be less than that. */
export function amount(value: number, unit: 'g' | 'mL'): string {
  if (value > 0 && value < 0.00001) return `<0.01 ${unit === 'g' ? 'mg' : 'µL'}`;
  return unit === 'g' && value > 0 && value < 0.01 ? `${figure(value * 1000)} mg` : `${figure(value)} ${unit}`;
}
