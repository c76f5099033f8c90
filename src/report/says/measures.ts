import { formatNumber } from '../../units/format.js';

/** `12 mL`, `1.5 L` */
export const ml = (millilitres: number): string =>
  millilitres >= 1000 ? `${formatNumber(millilitres / 1000, 3)} L` : `${formatNumber(millilitres, 3)} mL`;

/** `12.4 g`, `4.2 mg` */
export const grams = (value: number): string =>
  value < 0.01 ? `${formatNumber(1000 * value, 3)} mg` : `${formatNumber(value, 3)} g`;
