import { beforeAll, describe, expect, it } from 'vitest';
import { learnedOf, type Learned, PEN_KEY, rootOf } from '../../src/chance/learned.js';
import { askedCan } from '../../src/desk/asked-can.js';
import { collecting } from '../../src/desk/collecting.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { type Batch, judge, type Reading, rightReading } from '../../src/meter/index.js';
import { seeded } from '../../src/meter/matrix.js';
import { milliSiemensPerCm } from '../../src/units/index.js';
import { learn } from '../../src/year/journal/learn.js';
import { exampleFiles } from '../desk/benches.js';
import { goodBatches, growerOf, halfOf, learnedFrom, lies, predictedOf, readingsOf } from './hands.js';

const PEN = { scale: null, temperatureC: 25, compensates: true } as const;
let batch: Batch;
/** Growers with three good batches behind them, each with what was learned and the range that it gives. */
let growers: {
  random: ReturnType<typeof seeded>;
  grower: ReturnType<typeof growerOf>;
  learned: Learned;
  right: { low: number; high: number };
}[];

beforeAll(async () => {
  const files = exampleFiles('spoons-alone');
  const collected = collecting(files, {});
  const asked = await askedCan(files, {}, shippedCatalog(), collected);
  batch = (await asked.planned()).batch;
  growers = Array.from({ length: 80 }, (_, s) => {
    const random = seeded(2026 + s);
    const grower = growerOf(batch, random);
    return { random, grower, lessons: goodBatches(batch, grower, random, 3) };
  })
    .filter(({ lessons }) => lessons.length === 3)
    .map(({ lessons, ...rest }) => {
      const learned = learnedFrom(lessons);
      return { ...rest, learned, right: rightReading({ ...batch, learned }, 'end') };
    });
});

describe('three good batches', () => {
  it('halve the range of the next reading, and nine of ten still lie in it', () => {
    const predicted = predictedOf(batch);
    expect(halfOf(predicted)).toBeGreaterThan(0.1);
    let inside = 0;
    for (const { right, random, grower } of growers) {
      expect(right.high - right.low).toBeLessThan(0.56 * (predicted.high - predicted.low));
      if (lies(readingsOf(batch, grower, random)[0]!.mSPerCm, right)) inside += 1;
    }
    // nine of ten, within three standard errors of 80 draws
    expect(growers.length).toBeGreaterThan(70);
    expect(inside / growers.length).toBeGreaterThan(0.9 - 0.1);
  });

  it('show more mistakes than labels alone did, and lose fewer than one of fifty that showed', () => {
    const slips = [
      { slip: (i: number) => (i === 0 ? 0 : 1) },
      { slip: (i: number) => (i === 2 ? 0 : 1) },
      { slip: (i: number) => (i === 2 ? 1.5 : 1) },
      { water: 0.85 },
      { water: 1.15 },
    ];
    const told = { before: 0, after: 0, lost: 0, all: 0 };
    for (const { right, random, grower } of growers)
      for (const slip of slips) {
        const read = readingsOf(batch, grower, random, ['end'], slip)[0]!.mSPerCm;
        const [before, after] = [!lies(read, predictedOf(batch)), !lies(read, right)];
        told.all += 1;
        told.before += before ? 1 : 0;
        told.after += after ? 1 : 0;
        told.lost += before && !after ? 1 : 0;
      }
    expect(told.after).toBeGreaterThan(told.before);
    // a grower whose cans always read high may lose one that read still higher, by chance
    expect(told.lost / told.before).toBeLessThan(0.02);
  });

  it('make the judge of a reading as narrow: a can as always is good, one that is off is told', () => {
    const { learned, right } = growers[0]!;
    const at = (mSPerCm: number): Reading => ({
      moment: 'end',
      mSPerCm: milliSiemensPerCm(mSPerCm),
      shown: { figure: mSPerCm.toFixed(2), unit: 'mS/cm', scale: null },
    });
    const judged = (mSPerCm: number, own: Batch) => judge(own, [at(mSPerCm)], PEN).judgement;
    const middle = (right.low + right.high) / 2;
    const own = { ...batch, learned };
    expect(judged(middle, own)).toMatchObject({ verdict: 'within', readings: [{ within: true }] });
    expect(judged(middle, own).asPlanned).toBeGreaterThan(judged(middle, batch).asPlanned);
    // still within what labels leave open, and far from these hands
    const far = middle * (predictedOf(batch).high / middle > 1.1 ? 1.1 : 0.9);
    expect(judged(far, own).asPlanned).toBeLessThan(judged(far, batch).asPlanned);
    expect(judged(far, own).readings[0]!.within).toBe(false);
  });
});

describe('what is learned', () => {
  it('is Bayes’ rule for normal errors: one product, one figure, by hand', () => {
    const lesson = (entry: number, read: number) => ({
      entry,
      date: '2026-05-01',
      feed: 'moss',
      items: [{ key: 'a', id: 'a', prior: 0.1, jar: 0.1, fresh: 0.03 }],
      rows: [{ read, predicted: 1, slopes: [1], volume: 0 }],
    });
    const { mean, covariance, keys } = learn(
      [1.06, 1.1, 1.08].map((x, i) => lesson(i + 1, x)),
      [],
      'moss',
    );
    expect(keys).toEqual(['a', PEN_KEY]);
    // the sum of product and pen: prior variances add, each reading brings its own
    const pen = 0.02 ** 2 / 2 + 0.01 ** 2;
    const [prior, own] = [0.1 ** 2 + pen, 0.03 ** 2 + 0.02 ** 2 / 2 + 0.005 ** 2];
    const variance = 1 / (1 / prior + 3 / own);
    expect(mean[0]! + mean[1]!).toBeCloseTo((variance * (0.06 + 0.1 + 0.08)) / own, 9);
    const both = covariance[0]![0]! + 2 * covariance[0]![1]! + covariance[1]![1]!;
    expect(both).toBeCloseTo(variance, 9);
    expect(learnedOf([{ key: 'a', slope: 1 }], 1, learn([lesson(1, 1.06)], [], 'moss'))!.sd).toBeGreaterThan(
      Math.sqrt(both),
    );
    // a new product tells nothing, a new jar less
    expect(learnedOf([{ key: 'b', slope: 1 }], 1, { ...learn([], [], ''), keys, mean, covariance })).toBeNull();
    const opened = learn(
      [1.06, 1.1, 1.08].map((x, i) => lesson(i + 1, x)),
      [{ entry: 2, id: 'a' }],
      'moss',
    );
    expect(opened.covariance[0]![0]!).toBeGreaterThan(covariance[0]![0]!);
  });

  it('has a root', () => {
    const covariance = [
      [4, 2, 0],
      [2, 3, 1],
      [0, 1, 2],
    ];
    const root = rootOf(covariance);
    for (const [i, row] of covariance.entries())
      for (const [j, x] of row.entries())
        expect(root[i]!.reduce((sum, a, k) => sum + a * root[j]![k]!, 0)).toBeCloseTo(x, 9);
  });
});
