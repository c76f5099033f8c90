import { ecOf } from '../../meter/expected.js';
import { type Batch, itemsAt, litresAt, type Moment } from '../../meter/batch.js';
import { labelSpread, SPREADS } from '../../meter/spreads.js';
import { freshSpread } from '../../chance/lasting.js';
import { learnedKey } from '../../chance/learned.js';
import { hypot } from '../../units/elementary.js';

/** What one good batch tells: its readings beside what was predicted of them, and what moves each. */
export interface Lesson {
  entry: number;
  date: string;
  feed: string;
  items: readonly LessonItem[];
  rows: readonly LessonRow[];
}

export interface LessonItem {
  key: string;
  id: string;
  /** Standard deviation, as a share, of what a jar and the hands are off each time alike, before anything is learned. */
  prior: number;
  /** Of it, the jar's own; a new jar is drawn anew. */
  jar: number;
  /** Of what is new with each dose. */
  fresh: number;
}

export interface LessonRow {
  /** mS/cm at 25 °C, as read and as predicted. */
  read: number;
  predicted: number;
  /** mS/cm for a unit of each item's share, and of the water's. */
  slopes: readonly number[];
  volume: number;
}

/** What a batch and its readings tell. */
export function lessonOf(
  batch: Batch,
  readings: readonly { moment: Moment; mSPerCm: number }[],
  { entry, date, feed }: Pick<Lesson, 'entry' | 'date' | 'feed'>,
): Lesson {
  const items = batch.items.map((item): LessonItem => {
    const { product, planned, sd, lasting = 0, bySpoon } = item;
    const jar = labelSpread(product);
    const fresh = freshSpread(planned > 0 ? sd / planned : 0, lasting);
    return { key: learnedKey(product.id, bySpoon), id: product.id, prior: hypot(jar, lasting), jar, fresh };
  });
  const rows = readings.map(({ moment, mSPerCm }) => ({ read: mSPerCm, ...predictedRow(batch, moment) }));
  return { entry, date, feed, items, rows };
}

/** Feeds are mixed by the same sheet again and again: what it predicts is worked out once. */
const KNOWN = new WeakMap<Batch, Map<Moment, Omit<LessonRow, 'read'>>>();

function predictedRow(batch: Batch, moment: Moment): Omit<LessonRow, 'read'> {
  const known = KNOWN.get(batch)?.get(moment);
  if (known) return known;
  const ones = batch.items.map(() => 1);
  const nudged = (i: number, by: number): number =>
    ecOf(
      batch,
      moment,
      ones.map((one, k) => (k === i ? one + by : one)),
      1,
    );
  const there = itemsAt(batch, moment);
  const row = {
    predicted: ecOf(batch, moment, ones, 1),
    slopes: ones.map((_, i) => (i < there ? (nudged(i, NUDGE) - nudged(i, -NUDGE)) / (2 * NUDGE) : 0)),
    volume:
      litresAt(batch, moment) > 0
        ? (ecOf(batch, moment, ones, 1 + NUDGE) - ecOf(batch, moment, ones, 1 - NUDGE)) / (2 * NUDGE)
        : 0,
  };
  KNOWN.set(batch, new Map(KNOWN.get(batch)).set(moment, row));
  return row;
}

const NUDGE = 0.02;

/** Standard deviation, as a share of a reading, of the pen and the model together, the same each time. */
export const PEN_PRIOR = hypot(SPREADS.penCommon, SPREADS.model);
