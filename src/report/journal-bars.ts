import type { ReadPoint } from '../year/journal/results.js';
import type { Block } from './sheet.js';

/** Readings that are drawn under each other. */
const MOST = 12;

/** The latest readings, each against where nine of ten right ones lie. */
export function readingBars(points: readonly ReadPoint[], scale: number | null): Block[] {
  const shown = (mSPerCm: number): number => (scale === null ? mSPerCm : Math.round(mSPerCm * scale));
  const told = points.filter(({ low, high }) => low !== null && high !== null).slice(-MOST);
  if (told.length === 0) return [];
  return [
    {
      kind: 'bars',
      unit: scale === null ? 'mS/cm' : 'ppm',
      bars: told.map(({ entry, date, reading, expected, low, high }) => ({
        name: `${date} no. ${entry}`,
        value: shown(reading),
        low: shown(reading),
        high: shown(reading),
        min: shown(low!),
        // by the labels; good batches may have told otherwise
        aim: expected !== null && expected >= low! && expected <= high! ? shown(expected) : null,
        max: shown(high!),
      })),
    },
  ];
}
