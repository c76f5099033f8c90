import { decimalsOf, formatFixed, formatNumber } from '../units/index.js';

/** Digits that are of use for an amount, whatever the tool tells. */
const DIGITS = 3;

/**
 * An amount as the tool in hand can tell it: three digits, but in whole steps of the tool; `1.6 g` on a scale of 0.1 g, `<0.1 g` where it
 * is less than half a step.
 * @param step the smallest step of the tool in the unit of the amount; null where the tool is not known
 */
export function atToolPrecision(amount: number, unit: 'g' | 'mL', step: number | null): string {
  if (step === null || amount === 0) return `${formatNumber(amount, DIGITS)} ${unit}`;
  if (amount < step / 2) return `<${formatNumber(step, DIGITS)} ${unit}`;
  const inSteps = Math.round(amount / step) * step;
  const decimals = Math.min(decimalsOf(step, 6), decimalsOf(Number(formatNumber(amount, DIGITS))));
  return `${formatFixed(inSteps, decimals)} ${unit}`;
}
