import { hypot } from '../units/elementary.js';
import { type NoWeight, type SpoonsTogether, type SpoonWeight, spoonWeight } from './spoon-weight.js';

/** Level spoons weighed on a scale. */
export interface ScaleTrial extends Omit<SpoonsTogether, 'from'> {
  /** The last digit of the scale, g. */
  step: number;
}

/** A kitchen scale within its digits is right to one part in a hundred (common practice, no source). */
const SCALE = 0.01;

/**
 * What ten level spoons on a kitchen scale say of one: the last digit counts twice (the bowl alone, and with the powder), evenly within a
 * step either way of its half, then the scale itself and how level spoons repeat. Bulk density and range as by the pen.
 */
export function weighOnScale({ step, ...spoons }: ScaleTrial): SpoonWeight | NoWeight {
  const digits = (Math.SQRT2 * step) / Math.sqrt(12) / spoons.grams;
  return spoonWeight({ ...spoons, from: [{ source: 'scale', sd: hypot(digits, SCALE) }] });
}
