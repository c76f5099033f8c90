import type { ReadPoint } from '../year/journal/results.js';
import type { Block } from './sheet.js';

/** Readings that are drawn under each other. */
const MOST = 12;

/** The latest readings, each against where nine of ten right ones lie. */
export function readingBars(points: readonly ReadPoint[]): Block[] {
  const told = points.filter(({ low, high }) => low !== null && high !== null).slice(-MOST);
  if (told.length === 0) return [];
  return [
    {
      kind: 'bars',
      unit: 'mS/cm',
      bars: told.map(({ entry, date, reading, expected, low, high }) => ({
        name: `${date} no. ${entry}`,
        value: reading,
        low: reading,
        high: reading,
        min: low,
        // by the labels; good batches may have told otherwise
        aim: expected !== null && expected >= low! && expected <= high! ? expected : null,
        max: high,
      })),
    },
  ];
}
