import type { MixingSheet } from '../../sheet/sheet-types.js';
import { figure } from '../figures.js';
import { formatFixed } from '../../units/index.js';

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
export const ecNumber = (ec: number): string => formatFixed(ec, ec < 0.9995 ? 3 : 2);

const ppm = (value: number): string => formatFixed(value, 0);

/** What the numbers of a pen are called. */
export const penUnit = (pen: Pen): string => (pen === 'EC' ? 'EC, mS/cm' : `ppm, ${pen} scale`);

/** Litres; NIST Handbook 44 appendix C, UK Weights and Measures Act 1985, both from memory. */
export const US_GALLON = 3.785411784;
export const IMPERIAL_GALLON = 4.54609;

/** `3 L`; of a can that holds whole quarters of a gallon `0.75 US gal (2.84 L)`, for its marks are in gallons. */
export function markText(litres: number, can: number): string {
  const gallon = [US_GALLON, IMPERIAL_GALLON].find((size) => isWhole((4 * can) / size));
  if (gallon === undefined) return litresText(litres);
  return `${figure(litres / gallon)} ${gallon === US_GALLON ? 'US' : 'imperial'} gal (${litresText(litres)})`;
}

const isWhole = (x: number): boolean => Math.abs(x - Math.round(x)) < 1e-6;

/** `3 L`, `750 mL` */
export const litresText = (litres: number): string =>
  litres < 1 ? `${figure(1000 * litres)} mL` : `${figure(litres)} L`;
