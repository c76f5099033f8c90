import { readPlainNumber, type Writing } from './number.js';
import { type Read, unread } from './read.js';

/**
 * Reads what a pen shows: `EC` is null, `500` is ppm per mS/cm. A conversion factor as leaflets print it, ppm per µS/cm, is a scale too: 0.5
 * is 500, 0.64 is 640.
 */
export function readPenScale(text: string, writing: Writing = {}): Read<number | null> {
  if (/^\s*ec\s*$/i.test(text)) return { ok: true, value: null, comma: null };
  const read = readPlainNumber(text, ['ppm'], writing);
  if (!read.ok) return read;
  const factor = read.value >= LEAST_SCALE / 1000 && read.value <= MOST_SCALE / 1000;
  const scale = factor ? Math.round(read.value * 1e6) / 1000 : read.value;
  if (scale >= LEAST_SCALE && scale <= MOST_SCALE) return { ok: true, value: scale, comma: read.comma };
  return unread('other', `"${text.trim()}"`, PEN_SCALE.expected, PEN_SCALE.fix);
}

/** Scales in use are 500, 640 and 700; common practice, no source. */
const LEAST_SCALE = 400;
const MOST_SCALE = 1000;

/** What to say where a scale is none. */
export const PEN_SCALE = {
  expected: `EC, or ppm per mS/cm from ${LEAST_SCALE} to ${MOST_SCALE}`,
  fix: 'Look on the pen or in its leaflet: most show EC, or ppm on the 500, 640 or 700 scale.',
};
