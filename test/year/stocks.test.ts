import { describe, expect, it } from 'vitest';
import { dampGrams } from '../../src/year/storage.js';
import { yearOf } from '../../src/year/stocks.js';
import { weeksFrom } from '../../src/year/weeks.js';
import { flushPlan } from '../../src/year/flush.js';
import { compiledPractice } from '../../src/year/compiled-practice.js';
import { litres } from '../../src/units/index.js';
import { runsOf } from '../../src/year/events.js';

const weeks = weeksFrom('2026-12-01');
const jar = { id: 'a', name: 'A', form: 'powder' as const };
const each = (grams: number): number[] => Array(52).fill(grams);

describe('a product through the year', () => {
  it('runs out in the week that it does not reach for, as counted by hand', () => {
    // 100 g at 8 g a week: 12 weeks take 96, the thirteenth lacks 4; it begins 84 days after 1 December 2026
    const { line, orders } = yearOf({ product: { ...jar, onHand: 100 }, perWeek: each(8) }, weeks, 14);
    expect(line.runsOut).toEqual({ week: 13, day: '2027-02-23' });
    expect(line.used).toBe(416);
    expect(orders).toEqual([]);
    expect(line.stock?.[12]).toBe(4);
  });

  it('lasts to the last gram, and to the last week', () => {
    const { line } = yearOf({ product: { ...jar, onHand: 5.2 }, perWeek: each(0.1) }, weeks, 14);
    expect(line.runsOut).toBeNull();
    const short = yearOf({ product: { ...jar, onHand: 5.1 }, perWeek: each(0.1) }, weeks, 14).line;
    expect(short.runsOut).toEqual({ week: 52, day: '2027-11-23' });
  });

  it('is ordered again as the same pack, so early that it is there', () => {
    const product = { ...jar, onHand: 100, pack: 200, price: 5 };
    const { line, orders } = yearOf({ product, perWeek: each(8) }, weeks, 14);
    // 100 + 200 last through week 37; the third jar through the year
    expect(orders.map(({ week, day, needed, packs, cost }) => [week, day, needed, packs, cost])).toEqual([
      [13, '2027-02-09', '2027-02-23', 1, 5],
      [38, '2027-08-03', '2027-08-17', 1, 5],
    ]);
    expect(line.packs).toBe(2);
    expect(line.cost).toBeCloseTo((416 * 5) / 200, 9);
    expect(Math.min(...line.stock!)).toBeGreaterThanOrEqual(0);
    expect(line.stock!.at(-1)).toBeCloseTo(100 + 400 - 416, 9);
  });

  it('is ordered for four weeks at once where a pack lasts less, and at once where it is late', () => {
    const { orders } = yearOf({ product: { ...jar, onHand: 0, pack: 10 }, perWeek: each(8) }, weeks, 14);
    expect(orders[0]).toMatchObject({ day: '2026-12-01', isLate: true, packs: 4, cost: null });
    expect(orders).toHaveLength(11);
  });

  it('has no end that is known where the shelf does not say what is left', () => {
    const { line, orders } = yearOf({ product: jar, perWeek: each(8) }, weeks, 14);
    expect([line.runsOut, line.stock, line.onHand, orders.length]).toEqual([null, null, null, 0]);
  });
});

describe('flushing', () => {
  it('comes each time so many weeks of feed have gone by, and never while there is none', () => {
    const pots = { pots: 40, potLitres: litres(0.3), wateringLitres: null, wateringsAWeek: null, weeklyAssumed: false };
    const fed = Array.from({ length: 52 }, (_, i) => i < 6 || i >= 20);
    const plan = flushPlan('bark', pots, fed, compiledPractice.flushes);
    // weeks 4; then two of feed before the rest and two after it
    expect(plan.weeks.slice(0, 3)).toEqual([4, 22, 26]);
    expect(plan.weeks.every((week) => fed[week - 1])).toBe(true);
    expect([plan.litresPerPot, plan.litres]).toEqual([0.6, 24]);
    expect(flushPlan('mounted', pots, fed, compiledPractice.flushes).litresPerPot).toBeNull();
  });

  it('makes the fewest dates of its weeks', () => {
    expect(runsOf([4, 8, 12, 16])).toEqual([{ first: 4, every: 4, times: 4 }]);
    expect(runsOf([4, 22, 26, 30])).toEqual([
      { first: 4, every: 1, times: 1 },
      { first: 22, every: 4, times: 3 },
    ]);
    expect(runsOf([7])).toEqual([{ first: 7, every: 1, times: 1 }]);
    expect(runsOf([])).toEqual([]);
    for (const numbers of [
      [1, 2, 3, 9, 10, 30],
      [1, 5, 6, 7],
      [3, 9],
    ])
      expect(
        runsOf(numbers).flatMap(({ first, every, times }) =>
          Array.from({ length: times }, (_, i) => first + i * every),
        ),
      ).toEqual(numbers);
  });
});

it('weighs so much more of a damp powder as it has drawn water', () => {
  // 500 g that weigh 520 g: 4 % more
  expect(dampGrams(10, 500, 520)).toBeCloseTo(10.4, 12);
  expect(dampGrams(10, 500, 490)).toBe(10);
});
