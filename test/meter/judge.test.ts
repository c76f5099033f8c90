import { litres, milliSiemensPerCm, scaleBy } from '../../src/units/index.js';
import { beforeAll, describe, expect, it } from 'vitest';
import type { DosePlan } from '../../src/dose/plan-types.js';
import type { Batch, Moment, Reading } from '../../src/meter/batch.js';
import { ecOf, expectedReadings } from '../../src/meter/expected.js';
import { batchOfPlan } from '../../src/meter/from-plan.js';
import { judge } from '../../src/meter/judge.js';
import { inverse, seeded } from '../../src/meter/matrix.js';
import { plannedBatch } from '../../src/meter/meter-types.js';
import type { Remedy, SettledRemedy } from '../../src/meter/remedy.js';
import { doingOf, rescue } from '../../src/meter/rescue.js';
import { causeSays } from '../../src/report/says/cause.js';
import { withNitrogenNear } from '../feed/near-nitrogen.js';
import { randomBench, SCALE_KIT } from './benches.js';

const PEN = { scale: null, temperatureC: 25, compensates: true } as const;
const OPTIONS = { capacityLitres: 5, kit: SCALE_KIT };

let plan: DosePlan;
let batch: Batch;

beforeAll(async () => {
  const random = seeded(7);
  const pick = (n: number): number => Math.floor(random.uniform() * n);
  for (;;) {
    const bench = await randomBench(pick);
    if (!bench || bench.plan.items.length < 3) continue;
    plan = bench.plan;
    break;
  }
  batch = batchOfPlan(plan);
});

const reading = (moment: Moment, mSPerCm: number): Reading => ({
  moment,
  mSPerCm: milliSiemensPerCm(mSPerCm),
  shown: { figure: `${mSPerCm}`, unit: 'mS/cm', scale: null },
});

/** mg/L that the plan holds. */
const nitrogen = (): number => plan.mix.elements.find(({ element }) => element === 'N')!.mgPerLitre;

/** What is told to do without knowing which explanation it was. */
const settled = (remedy: Remedy): SettledRemedy => (remedy.status === 'check first' ? remedy.unknowing : remedy);

/** Exact readings of a can after every step. */
function read(factors: (i: number) => number, volume = 1): Reading[] {
  const all = batch.items.map((_, i) => factors(i));
  return [0, ...batch.items.map((_, i) => i + 1), 'end' as const].map((moment) =>
    reading(moment, ecOf(batch, moment, all, volume)),
  );
}

describe('what a reading says', () => {
  it('the curves stay within 0.2 % of the model', () => {
    const expected = expectedReadings(batch, ['end']);
    for (const factor of [0.2, 0.7, 1.5, 3, 3.8]) {
      const exact = ecOf(
        batch,
        'end',
        batch.items.map((_, i) => (i === 0 ? factor : 1)),
        1,
      );
      expect(Math.abs(expected.withItem(0, factor)[0]! / exact - 1)).toBeLessThan(0.002);
    }
    for (const volume of [0.6, 0.8, 1.3, 1.6]) {
      const exact = ecOf(
        batch,
        'end',
        batch.items.map(() => 1),
        volume,
      );
      expect(Math.abs(expected.withVolume(volume)[0]! / exact - 1)).toBeLessThan(0.002);
    }
  });

  it('the planned reading is within tolerance and asks for nothing', async () => {
    const judged = judge(
      batch,
      read(() => 1),
      PEN,
    );
    expect(judged.judgement.verdict).toBe('within');
    const remedy = await rescue(judged, plan.request, OPTIONS);
    expect(remedy.status).toBe('feed');
    expect(doingOf(settled(remedy))).toBeNull();
  });

  // common practice, no source: a feed mixed to 200 ppm that reads 190 to 210 is good enough
  it('5 % off at the end is within tolerance', () => {
    const target = ecOf(
      batch,
      'end',
      batch.items.map(() => 1),
      1,
    );
    for (const off of [0.955, 1.045])
      expect(judge(batch, [reading('end', target * off)], PEN).judgement.verdict).toBe('within');
  });

  it('an item counted twice is named, and how much of it', async () => {
    const judged = judge(
      batch,
      read((i) => (i === 0 ? 2 : 1)),
      PEN,
    );
    const [first] = judged.judgement.causes;
    expect(judged.judgement.verdict).toBe('off');
    expect(first).toMatchObject({ cause: 'item:0', fault: { kind: 'item', item: 0, variant: 'doubled' } });
    expect(judged.actual[0]!.likely / batch.items[0]!.planned).toBeCloseTo(2, 0);
    const remedy = await rescue(judged, plan.request, OPTIONS);
    expect(['rescue', 'check first']).toContain(remedy.status);
    const told = settled(remedy);
    expect(told.misses).toEqual([]);
    expect('proof' in told && told.proof!.gap).toBeLessThanOrEqual(1e-6);
  });

  it('a forgotten item is named and added', async () => {
    const judged = judge(
      batch,
      read((i) => (i === 0 ? 0 : 1)),
      PEN,
    );
    expect(judged.judgement.causes[0]).toMatchObject({ cause: 'item:0', fault: { variant: 'forgotten' } });
    const remedy = settled(await rescue(judged, withNitrogenNear(plan.request, nitrogen()), OPTIONS));
    expect(doingOf(remedy)!.add.length).toBeGreaterThan(0);
    expect(remedy.misses).toEqual([]);
  });

  it('too little water is named, and water is what the can gets', async () => {
    const judged = judge(
      batch,
      read(() => 1, 0.75),
      PEN,
    );
    expect(judged.judgement.causes[0]!.cause).toBe('volume');
    expect(judged.actual.at(-1)!.likely).toBeCloseTo(3, 0);
    const doing = doingOf(settled(await rescue(judged, withNitrogenNear(plan.request, nitrogen()), OPTIONS)))!;
    expect(doing.waterLitres).toBeGreaterThan(0.3);
    expect(doing.keepShare).toBe(1);
  });

  it.each([
    [3.785411784, 4.54609 / 3.785411784, 'as if an imperial gallon had been taken for a US gallon'],
    [4.54609, 3.785411784 / 4.54609, 'as if a US gallon had been taken for an imperial gallon'],
    [4, 4.54609 / 3.785411784, null],
    [3.785411784, 3.785411784 / 4.54609, null],
  ])('a batch of %d L in %d times the water: %s', (size, volume, words) => {
    const cans = { ...batch, litres: litres(size) };
    const ones = batch.items.map(() => 1);
    const moments: Moment[] = [...batch.items.map((_, i) => i + 1), 'end'];
    const readings = moments.map((moment) => reading(moment, ecOf(cans, moment, ones, volume)));
    const cause = judge(cans, readings, PEN).judgement.causes.find((found) => found.cause === 'volume')!;
    const told = causeSays(cause, plannedBatch(cans, PEN));
    expect(told).toMatch(volume > 1 ? /^more water/ : /^less water/);
    if (words === null) expect(told).not.toContain('gallon');
    else expect(told).toContain(words);
  });

  it('a reading on the wrong scale is told from a wrong can', () => {
    const pen = { ...PEN, scale: 500 };
    const judged = judge(
      batch,
      read(() => 1).map((r) => ({ ...r, mSPerCm: scaleBy(r.mSPerCm, 1.4) })),
      pen,
    );
    const causes = judged.judgement.causes.slice(0, 2).map((c) => c.cause);
    expect(causes).toContain('scale');
    const scale = judged.judgement.causes.find((c) => c.cause === 'scale')!;
    expect(causeSays(scale, plannedBatch(batch, pen))).toBe('the pen counts on the 700 scale, not on 500');
  });

  it('a cold can and a pen without correction', () => {
    const pen = { scale: null, temperatureC: 12, compensates: null };
    const judged = judge(
      batch,
      read(() => 1).map((r) => ({ ...r, mSPerCm: scaleBy(r.mSPerCm, 0.74) })),
      pen,
    );
    expect(judged.judgement.causes.slice(0, 2).map((c) => c.cause)).toContain('temperature');
  });

  it('one reading cannot tell too little water from a forgotten top-up: both are named, and both explain it', () => {
    const end = ecOf(
      batch,
      'end',
      batch.items.map(() => 1),
      0.75,
    );
    const judged = judge(batch, [reading('end', end)], PEN);
    const named = judged.judgement.causes.slice(0, 3).filter((c) => c.explains);
    expect(named.map((c) => c.cause)).toEqual(expect.arrayContaining(['volume', 'topping']));
  });

  it('shares of all causes and of no mistake sum to one, and the same readings give the same answer', () => {
    const judge2 = (): ReturnType<typeof judge> =>
      judge(
        batch,
        read((i) => (i === 0 ? 1.3 : 1)),
        PEN,
      );
    const one = judge2();
    const sum = one.weighed.points.reduce((total, p) => total + p.probability, 0);
    expect(sum).toBeCloseTo(1, 9);
    expect(JSON.stringify(judge2().judgement)).toBe(JSON.stringify(one.judgement));
    expect(judge2().cans).toEqual(one.cans);
  });

  it('the inverse of a small covariance', () => {
    const { inverse: b, logDeterminant } = inverse([
      [4, 1],
      [1, 3],
    ]);
    expect(logDeterminant).toBeCloseTo(Math.log(11), 12);
    expect(b[0]![0]).toBeCloseTo(3 / 11, 12);
    expect(b[0]![1]).toBeCloseTo(-1 / 11, 12);
  });

  it('nothing on the shelf and a spoiled can: do not feed', async () => {
    // four times the first item, no room and no products to make up the rest
    const request = { ...plan.request, shelf: plan.request.shelf.map((p) => p.with({ onHand: 0 })) };
    const judged = judge(
      batch,
      read((i) => (i === 0 ? 4 : 1)),
      PEN,
    );
    const remedy = await rescue(judged, request, { ...OPTIONS, capacityLitres: 4 });
    expect(remedy.status).toBe('do not feed');
  });
});
