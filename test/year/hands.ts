import { freshSpread } from '../../src/chance/lasting.js';
import { type Batch, type Moment, rightReading } from '../../src/meter/index.js';
import { ecOf } from '../../src/meter/expected.js';
import { labelSpread, SPREADS } from '../../src/meter/spreads.js';
import type { seeded } from '../../src/meter/matrix.js';
import { learn } from '../../src/year/journal/learn.js';
import { type Lesson, lessonOf } from '../../src/year/journal/lesson.js';
import type { Learned } from '../../src/chance/learned.js';

type Random = ReturnType<typeof seeded>;

/** One grower: what jars, hands and pen are off each time alike, drawn as the predicted range has it. */
export interface Grower {
  items: number[];
  pen: number;
}

export const growerOf = (batch: Batch, random: Random): Grower => ({
  items: batch.items.map(
    ({ product, lasting = 0 }) => (1 + labelSpread(product) * random.normal()) * (1 + lasting * random.normal()),
  ),
  pen: (1 + SPREADS.penCommon * random.normal()) * (1 + SPREADS.model * random.normal()),
});

/** What a batch of theirs reads at some moments, to two decimals; `slip` multiplies the doses, `water` the water. */
export function readingsOf(
  batch: Batch,
  grower: Grower,
  random: Random,
  moments: readonly Moment[] = ['end'],
  { slip = () => 1, water = 1 }: { slip?: (item: number) => number; water?: number } = {},
): { moment: Moment; mSPerCm: number }[] {
  const factors = batch.items.map(({ planned, sd, lasting = 0 }, i) =>
    Math.max(0, slip(i) * grower.items[i]! * (1 + freshSpread(sd / planned, lasting) * random.normal())),
  );
  const volume = water * (1 + SPREADS.water * random.normal());
  return moments.map((moment) => {
    const ec = ecOf(batch, moment, factors, volume) * grower.pen * (1 + SPREADS.penEach * random.normal());
    return { moment, mSPerCm: Math.round(100 * ec) / 100 };
  });
}

/** What is predicted of a batch by labels alone, worked out once. */
const PREDICTED = new WeakMap<Batch, { low: number; high: number }>();
export function predictedOf(batch: Batch): { low: number; high: number } {
  const right = PREDICTED.get(batch) ?? rightReading(batch, 'end');
  PREDICTED.set(batch, right);
  return right;
}

export const lies = (mSPerCm: number, { low, high }: { low: number; high: number }): boolean =>
  mSPerCm >= low && mSPerCm <= high;

/** So many good batches of a grower, one after the other. */
export function goodBatches(
  batch: Batch,
  grower: Grower,
  random: Random,
  count: number,
  moments: readonly Moment[] = ['end'],
): Lesson[] {
  const lessons: Lesson[] = [];
  // of a grower whose every can is off nothing can be learned
  for (let tries = 0; lessons.length < count && tries < 50 * count; tries += 1) {
    const readings = readingsOf(batch, grower, random, moments);
    if (!lies(readings.at(-1)!.mSPerCm, predictedOf(batch))) continue;
    const entry = lessons.length + 1;
    lessons.push(lessonOf(batch, readings, { entry, date: '2026-05-01', feed: 'moss' }));
  }
  return lessons;
}

export const learnedFrom = (lessons: readonly Lesson[]): Learned => learn(lessons, [], 'moss');

/** Half of a range, as a share of its middle. */
export const halfOf = ({ low, high }: { low: number; high: number }): number => (high - low) / (high + low);
