import type { MixingSheet } from '../../dose/mixing-sheet.js';
import { figure } from '../figures.js';

type Pen = MixingSheet['pen'];
type Read = { mSPerCm: number; low: number; high: number };

/** `110 ppm` on a ppm pen, `0.22 mS/cm` on an EC pen. */
export function shown(reading: Pick<Read, 'mSPerCm'>, pen: Pen): string {
  return pen === 'EC' ? mSPerCm(reading.mSPerCm) : `${ppm(reading.mSPerCm * pen)} ppm`;
}

/** The bare number as the pen shows it. */
export const number = (ec: number, pen: Pen): string => (pen === 'EC' ? ecNumber(ec) : ppm(ec * pen));

/** `104 to 116` in the unit of the pen. */
export const range = (reading: Read, pen: Pen): string => `${number(reading.low, pen)} to ${number(reading.high, pen)}`;

export const mSPerCm = (ec: number): string => `${ecNumber(ec)} mS/cm`;

/** A pen shows two decimals at most; below 1 mS/cm the third tells one step from the next. */
export const ecNumber = (ec: number): string => ec.toFixed(ec < 0.9995 ? 3 : 2);

const ppm = (value: number): string => value.toFixed(0);

/** What the numbers of a pen are called. */
export const penUnit = (pen: Pen): string => (pen === 'EC' ? 'EC, mS/cm' : `ppm, ${pen} scale`);

/** `3 L`, `750 mL` */
export const litresText = (litres: number): string =>
  litres < 1 ? `${figure(1000 * litres)} mL` : `${figure(litres)} L`;
