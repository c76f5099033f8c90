import type { Checked, Where } from '../../problem.js';
import { isWithin, rangeText, readTemperature } from '../../units/index.js';
import { refusedText, taken } from './refused.js';

/** How warm the can is: `18 °C`, `64 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseTemperature(text: string, where: Where): Checked<number> {
  const read = readTemperature(text);
  if (read.ok && isRoomy(read.value)) return taken(read.value, read, where);
  return refusedText(text, read, 'temperature', where, EXPECTED, 'Write for example "18 °C" or "64 °F".');
}

/** The coldest it gets where a stock stands: `10 °C`, `50 °F` or a bare number in °C, from 0 to 40 °C. */
export function parseStorage(text: string, where: Where): Checked<number> {
  const read = readTemperature(text);
  if (read.ok && isRoomy(read.value)) return taken(read.value, read, where);
  const fix = !read.ok
    ? 'Write for example "10 °C".'
    : read.value < 0
      ? 'A frozen stock falls apart: keep it free of frost.'
      : 'Keep stocks cool.';
  return refusedText(text, read, 'coldest', where, EXPECTED, fix);
}

const isRoomy = (celsius: number): boolean => isWithin('temperature', celsius);
const EXPECTED = `a temperature ${rangeText('temperature')}`;
