import { describe, expect, it } from 'vitest';
import { reach } from '../../src/blend/reach.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { withoutAimed } from '../../src/feed/grade.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Decides, ReachLine, ReachResult } from '../../src/feed/results.js';
import { leastLargestMiss } from '../../src/formulation/index.js';
import { decidesSays } from '../../src/report/says/reach.js';
import { powder, request, water } from '../feed/fixtures.js';
import { benches } from '../feed/random-benches.js';

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
    // calcium alone has N : Ca as 150 : 200. At x g/L the misses are 1 − 1.5 x and 2 x − 1: equal at 1/7
    const bands = { N: { min: 75, aim: 100, max: 150 }, Ca: { min: 50, aim: 100, max: 200 } };
    const result = await reach(request([calcium], bands), 'shelf');
    expect(result.elements.map((l) => l.aimReachable)).toEqual([true, true]);
    expect(result.aimsMiss).toBeCloseTo(1 / 7, 9);
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
        const lifted = decides && without(alone, decides);
        if (!lifted) continue;
        out += 1;
        const left = (await leastLargestMiss(lifted))!;
        if (left < miss - 1e-9) nearer += 1;
      }
    }
    expect(out).toBeGreaterThan(0);
    expect(nearer).toBe(out);
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

/** The bench without the limit that decides; null where that is no limit of an element or a rule. */
function without(bench: FeedRequest, decides: Decides): FeedRequest | null {
  if (!('limit' in decides)) return null;
  const { limit } = decides;
  const { programme } = bench;
  if (limit.kind === 'rule') {
    const rules = programme.rules.filter((rule) => rule !== limit.rule);
    return { ...bench, rules: bench.rules.filter((rule) => rule !== limit.rule), programme: { ...programme, rules } };
  }
  if (limit.kind !== 'nutrient') return null;
  const { min, max, ...rest } = programme.bands[limit.nutrient]!;
  const kept = limit.end === 'least' ? { ...rest, max } : { ...rest, min };
  const bands = {
    ...programme.bands,
    [limit.nutrient]: Object.fromEntries(Object.entries(kept).filter(([, v]) => v !== undefined)),
  };
  return { ...bench, programme: { ...programme, bands } };
}
