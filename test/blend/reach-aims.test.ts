import { describe, expect, it } from 'vitest';
import { dosesOfFeed } from '../../src/desk/doses.js';
import { reach } from '../../src/blend/reach.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { withoutAimed } from '../../src/feed/grade.js';
import type { Limit } from '../../src/feed/limits.js';
import { type FeedRequest, withoutEcCap } from '../../src/feed/request.js';
import type { Band } from '../../src/programme/programme.js';
import type { Decides, ReachLine, ReachResult } from '../../src/feed/results.js';
import { leastLargestMiss } from '../../src/formulation/index.js';
import { decidesSays } from '../../src/report/says/reach.js';
import { powder, request, water } from '../feed/fixtures.js';
import { benches } from '../feed/random-benches.js';
import { goodShelf } from './good-shelves.js';

// Invented labels with round figures, so that each expected value is a hand calculation written beside it.
const calcium = powder('calcium', { 'NO3-N': 15, Ca: 20 });
const chloride = powder('chloride', { Ca: 36, Cl: 64 });
const magnesium = powder('magnesium', { Mg: 10, S: 13 });
const line = ({ elements }: ReachResult, element: Nutrient): ReachLine => elements.find((l) => l.element === element)!;
const told = (found: ReachLine): [boolean | null, string | null] => [
  found.aimReachable,
  found.decides && decidesSays(found.decides),
];

describe('the aim of each element', () => {
  it('is out of reach where the only source is stopped; the rest can be met (hand calculation)', async () => {
    // 1 g/L of calcium brings N 150 and Ca 200, so Ca 300 would bring N 225; Mg 25 takes 0.25 g/L, which brings S 32.5
    const bands = {
      N: { min: 75, aim: 100, max: 150 },
      Ca: { min: 50, aim: 300 },
      Mg: { min: 20, aim: 25 },
      S: { max: 39 },
    };
    const result = await reach(request([calcium, magnesium], bands), 'shelf');
    expect(told(line(result, 'Ca'))).toEqual([false, 'only calcium brings it, and N ≤ 150']);
    expect(told(line(result, 'N'))).toEqual([true, null]);
    expect(told(line(result, 'Mg'))).toEqual([true, null]);
    expect(told(line(result, 'S'))).toEqual([null, null]);
    expect([result.status, result.conflict]).toEqual(['together', []]);
    expect(result.aimsMiss).toBeCloseTo(0, 9);
  });

  it('is decided by the limit that allows the most of it (hand calculation)', async () => {
    // N ≤ 150 allows Ca 200 from calcium, Cl ≤ 32 allows Ca 18 from chloride
    const bands = { N: { min: 75, max: 150 }, Ca: { aim: 300 }, Cl: { max: 32 } };
    const result = await reach(request([calcium, chloride], bands), 'shelf');
    expect(line(result, 'Ca').whole!.highest).toBeCloseTo(218, 6);
    expect(told(line(result, 'Ca'))).toEqual([false, 'N ≤ 150']);
  });

  it('is below what a floor calls for, or below what the water holds', async () => {
    // N ≥ 75 takes 0.5 g/L of calcium, which brings Ca 100
    const pushed = await reach(request([calcium], { N: { min: 75 }, Ca: { aim: 60 } }), 'shelf');
    expect(told(line(pushed, 'Ca'))).toEqual([false, 'N ≥ 75']);
    const hard = [water({ mgPerLitre: { Ca: 60 } })];
    const held = await reach(request([magnesium], { Mg: { aim: 10 }, Ca: { aim: 20 } }, { waters: hard }), 'shelf');
    expect(told(line(held, 'Ca'))).toEqual([false, 'the water holds 60']);
    expect(told(line(held, 'Mg'))).toEqual([true, null]);
  });

  it('is out of reach where nothing brings it, or where the only jar is empty', async () => {
    const bands = { K: { aim: 50 }, Mg: { aim: 10 } };
    const without = await reach(request([magnesium], bands), 'shelf');
    expect(told(line(without, 'K'))).toEqual([false, 'nothing brings it']);
    // 0.4 g on hand in 4 L is 0.1 g/L, which brings Mg 10: enough for 10, not for 20
    const little = magnesium.with({ onHand: 0.4 });
    expect(told(line(await reach(request([little], { Mg: { aim: 10 } }), 'shelf'), 'Mg'))).toEqual([true, null]);
    expect(told(line(await reach(request([little], { Mg: { aim: 20 } }), 'shelf'), 'Mg'))).toEqual([
      false,
      'magnesium: 0.4 g on hand',
    ]);
  });

  it('may be within reach one by one, yet not all at once (hand calculation)', async () => {
    // calcium alone has N : Ca as 150 : 200. The nearest feed holds N within 2 % of its aim, so 98 at least, which brings Ca 130.67
    const bands = { N: { min: 75, aim: 100, max: 150 }, Ca: { min: 50, aim: 100, max: 200 } };
    const result = await reach(request([calcium], bands), 'shelf');
    expect(result.elements.map((l) => l.aimReachable)).toEqual([true, true]);
    expect(result.farthest).toBe('Ca');
    expect(result.aimsMiss).toBeCloseTo((98 * 200) / 150 / 100 - 1, 3);
  });

  it('is not spoken of where the other limits cannot all be kept, unless the caps alone rule it out', async () => {
    // Ca ≥ 250 needs N 187.5 > 150, so nothing can be said of Mg; of S the caps leave at most 6.5, by Mg ≤ 5
    const bands = { N: { min: 75, max: 150 }, Ca: { min: 250 }, Mg: { aim: 4, max: 5 }, S: { aim: 13 } };
    const result = await reach(request([calcium, magnesium], bands), 'shelf');
    expect(told(line(result, 'Mg'))).toEqual([null, null]);
    expect(told(line(result, 'S'))).toEqual([false, 'only magnesium brings it, and Mg ≤ 5']);
    expect(result.status).toBe('apart');
    expect(result.conflict).toHaveLength(2);
    expect(result.conflict).toContainEqual(expect.objectContaining({ nutrient: 'Ca', end: 'least' }));
    expect(result.conflict).toContainEqual(expect.objectContaining({ nutrient: 'N', end: 'most' }));
    expect(result.aimsMiss).toBeNull();
  });

  it('is missed by the share that the nearest feed itself tells, wherever it is asked', async () => {
    let told = 0;
    for (const seed of [61, 62, 63, 64]) {
      const { open, request: own } = await goodShelf(seed);
      const { aimsMiss, farthest } = await reach(own, 'shelf');
      const { result } = await dosesOfFeed(own, open, { bare: false, want: 'closest' }, { offers: false });
      if (farthest === null || result.status !== 'made' || !('given' in result)) continue;
      told += 1;
      const held = result.elements.find(({ element }) => element === farthest)!;
      // measured out on a scale of 0.01 g
      expect(Math.abs(Math.abs(held.mgPerLitre / held.aim! - 1) - aimsMiss!)).toBeLessThan(0.15);
    }
    expect(told).toBeGreaterThan(1);
  });

  it('blames no other element where the water alone breaks a cap', async () => {
    const hard = [water({ mgPerLitre: { Ca: 60 } })];
    const bands = { Ca: { aim: 20, max: 40 }, Mg: { min: 5, aim: 10 } };
    const result = await reach(request([magnesium], bands, { waters: hard }), 'shelf');
    expect(told(line(result, 'Ca'))).toEqual([false, 'the water holds 60']);
    expect(line(result, 'Mg')).toMatchObject({ whole: null, capsOnly: null, reachable: false });
    expect(told(line(result, 'Mg'))).toEqual([null, null]);
  });
});

describe('on random benches that can be met', () => {
  it('agrees with the closest feed; lifting what decides brings the aim nearer', async () => {
    let [out, nearer] = [0, 0];
    for (const { request } of await benches(8, true, 9000)) {
      // reach speaks of limits that hold, not of those that are aimed at
      const bench = { ...request, programme: withoutAimed(request.programme) };
      const result = await reach(bench, 'shelf');
      for (const { element, aimReachable, decides } of result.elements) {
        if (aimReachable === null) continue;
        const alone = forOneAim(bench, element);
        const miss = (await leastLargestMiss(alone))!;
        expect(miss <= 1e-6).toBe(aimReachable);
        expect(decides === null).toBe(aimReachable);
        if (aimReachable || decides!.kind === 'nothing brings it') continue;
        out += 1;
        const left = await missWithout(alone, decides!);
        if (left < miss - 1e-9) nearer += 1;
      }
    }
    expect(out).toBeGreaterThan(0);
    expect(nearer).toBe(out);
  });

  it('names the limit without which an aim comes nearest: every limit is lifted by itself, and none does better', async () => {
    const seen = { limits: 0, water: 0 };
    for (const { request } of await benches(12, true, 9100, (seed) => 6 + (seed % 5))) {
      // without an EC cap every program is linear, and the judge as exact as the certificate
      const bench = { ...withoutEcCap(request), programme: withoutAimed(withoutEcCap(request).programme) };
      for (const { element, aimReachable, decides } of (await reach(bench, 'shelf')).elements) {
        if (aimReachable !== false || decides!.kind === 'nothing brings it') continue;
        const alone = forOneAim(bench, element);
        const named = await missWithout(alone, decides!);
        const each = [];
        for (const free of eachLifted(alone)) each.push((await leastLargestMiss(free))!);
        if (decides!.kind === 'together')
          expect(Math.min(...each)).toBeGreaterThan((await leastLargestMiss(alone))! - 2e-6);
        else expect(named).toBeLessThanOrEqual(Math.min(...each) + 2e-6);
        seen[decides!.kind === 'water' ? 'water' : 'limits'] += 1;
      }
    }
    expect(seen.limits, JSON.stringify(seen)).toBeGreaterThan(5);
  });
});

/** The same bench with the aim of one element alone, and that element's own band lifted. */
function forOneAim(bench: FeedRequest, element: Nutrient): FeedRequest {
  const bands = Object.entries(bench.programme.bands).map(([n, { aim, ...ends }]) => [
    n,
    n === element ? { aim } : ends,
  ]);
  return { ...bench, programme: { ...bench.programme, bands: Object.fromEntries(bands) } };
}

/** The miss that is left without what decides. */
async function missWithout(bench: FeedRequest, decides: Decides): Promise<number> {
  if (decides.kind === 'nothing brings it') throw new Error('nothing to lift');
  if (decides.kind === 'water') return (await leastLargestMiss(pureWaters(bench)))!;
  const limits = decides.kind === 'together' ? decides.limits : [decides.limit];
  return (await leastLargestMiss(limits.reduce(without, bench)))!;
}

const pureWaters = (bench: FeedRequest): FeedRequest => ({
  ...bench,
  waters: bench.waters.map((one) => ({ ...one, mgPerLitre: {} })),
});

/** The bench without one limit. */
function without(bench: FeedRequest, limit: Limit): FeedRequest {
  const { programme, shelf } = bench;
  const product = (id: string, lift: { onHand: undefined } | { maxRate: undefined }): FeedRequest => ({
    ...bench,
    shelf: shelf.map((one) => (one.id === id ? one.with(lift) : one)),
  });
  switch (limit.kind) {
    case 'rule':
      return {
        ...bench,
        rules: bench.rules.filter((rule) => rule !== limit.rule),
        programme: { ...programme, rules: programme.rules.filter((rule) => rule !== limit.rule) },
      };
    case 'nutrient': {
      const { min, max, ...rest } = programme.bands[limit.nutrient]!;
      const ends = limit.end === 'least' ? { max } : { min };
      const kept = Object.fromEntries(Object.entries(ends).filter(([, value]) => value !== undefined));
      return {
        ...bench,
        programme: { ...programme, bands: { ...programme.bands, [limit.nutrient]: { ...rest, ...kept } } },
      };
    }
    case 'stock':
      return product(limit.product, { onHand: undefined });
    case 'rate':
      return product(limit.product, { maxRate: undefined });
    case 'ec':
      return withoutEcCap(bench);
    default:
      throw new Error(limit.kind);
  }
}

/** The bench without each of its limits in turn, and with pure water. */
function eachLifted(bench: FeedRequest): FeedRequest[] {
  const bands = (Object.entries(bench.programme.bands) as [Nutrient, Band][]).flatMap(([nutrient, { min, max }]) => [
    ...(min === undefined
      ? []
      : [without(bench, { kind: 'nutrient', nutrient, end: 'least', bound: min, owner: 'programme' })]),
    ...(max === undefined
      ? []
      : [without(bench, { kind: 'nutrient', nutrient, end: 'most', bound: max, owner: 'programme' })]),
  ]);
  const rules = [...bench.programme.rules, ...bench.rules].map((rule) =>
    without(bench, { kind: 'rule', rule } as Limit),
  );
  const products = bench.shelf.flatMap(({ id, onHand, maxRate }) => [
    ...(onHand === undefined ? [] : [without(bench, { kind: 'stock', product: id } as Limit)]),
    ...(maxRate === undefined ? [] : [without(bench, { kind: 'rate', product: id } as Limit)]),
  ]);
  return [...bands, ...rules, ...products, pureWaters(bench)];
}
