import { describe, expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { powder, pure, request, water } from '../feed/fixtures.js';
import { proofSentence } from '../../src/report/says/proof.js';
import { cannot, made } from '../feed/answers.js';
import { limitSays, missName } from '../../src/report/says/limits.js';
import { silenceSays } from '../../src/report/says/blend.js';
import type { BlendMade } from '../../src/feed/results.js';

// Invented labels with round figures, so that each expected value is a hand calculation written beside it.
const nitrate = powder('nitrate', { 'NO3-N': 10, K: 40 }, { price: 4, pack: 1000 });
const ammonium = powder('ammonium', { 'NH4-N': 20 }, { price: 1, pack: 1000 });
const calcium = powder('calcium', { 'NO3-N': 15, Ca: 20 }, { price: 3, pack: 1000 });

const silences = (result: BlendMade): string =>
  result.unknowns.map((silence) => silenceSays(silence, result)).join(' ');

describe('blend, cheapest', () => {
  it('takes the cheap source as far as the rule allows (hand calculation)', async () => {
    // N ≥ 100 mg/L, NH4-N ≤ 25 % of N, N from ammonium (200 mg/g, 1 EUR/kg) or calcium nitrate (150 mg/g, 3 EUR/kg):
    // ammonium gives 25 mg N = 0.125 g, calcium nitrate 75 mg N = 0.5 g; cost 0.125 · 0.001 + 0.5 · 0.003 = 0.001625
    const rule = {
      kind: 'linear' as const,
      text: 'NH4 <= 0.25 * N',
      terms: { 'NH4-N': 1, N: -0.25 },
      upper: 0,
      from: { owner: 'you' as const },
    };
    const result = made(
      await blend(request([ammonium, calcium], { N: { min: 100, aim: 120, max: 150 } }, { rules: [rule] })),
    );
    expect(result.proof.verdict).toBe('optimal');
    const grams = new Map(result.items.map((i) => [i.id, i.gramsPerLitre]));
    expect(grams.get('ammonium')).toBeCloseTo(0.125, 9);
    expect(grams.get('calcium')).toBeCloseTo(0.5, 9);
    expect(result.costPerLitre).toBeCloseTo(0.001625, 12);
    expect(result.costPerBatch).toBeCloseTo(0.0065, 12);
    expect(result.rules[0]).toMatchObject({ holds: true });
    expect(result.rules[0]!.value).toBeCloseTo(0.25, 9);
    expect(result.proof.figures.bound).toBeCloseTo(0.001625, 9);
    expect(proofSentence(result.proof)).toContain('no cheaper mix exists');
  });

  it('keeps stock and label ceilings', async () => {
    // 0.2 g on hand for 4 L leaves 0.05 g/L of ammonium = 10 mg N; the rest, 90 mg, is 0.6 g/L of calcium nitrate
    const few = ammonium.with({ onHand: 0.2 });
    const result = made(await blend(request([few, calcium], { N: { min: 100 } })));
    // listed as they go in: calcium first
    expect(result.items.map((i) => [i.id, i.gramsPerLitre])).toEqual([
      ['calcium', expect.closeTo(0.6, 9)],
      ['ammonium', expect.closeTo(0.05, 9)],
    ]);
    const capped = ammonium.with({ maxRate: 0.1 });
    const second = made(await blend(request([capped, calcium], { N: { min: 100 } })));
    expect(second.items.find((i) => i.id === 'ammonium')!.gramsPerLitre).toBeCloseTo(0.1, 9);
  });

  it('counts the minerals of the water, and blends two waters', async () => {
    // N 10 mg/L is cheapest from calcium nitrate (0.003 / 150 against 0.004 / 100 EUR per mg): 10/150 g, which brings 13.33 mg Ca.
    // The other 16.67 mg Ca cost 1.7e-6 EUR/mg from hard water (0.0001 / 60) against 1.5e-5 from the salt: 16.67 / 60 of the can.
    const hard = water({ id: 'hard', name: 'hard', mgPerLitre: { Ca: 60 }, pricePerLitre: 0.0001 });
    const result = made(
      await blend(request([nitrate, calcium], { N: { min: 10 }, Ca: { min: 30, max: 30 } }, { waters: [pure, hard] })),
    );
    expect(result.proof.verdict).toBe('optimal');
    expect(result.waters.find((w) => w.id === 'hard')!.share).toBeCloseTo(50 / 3 / 60, 9);
    expect(result.elements.find((e) => e.element === 'Ca')!.mgPerLitre).toBeCloseTo(30, 6);
  });

  it('counts an unstated nitrogen form as ammonium against a cap, and as nothing for a minimum', async () => {
    const silent = powder('silent', { N: 20 }, { price: 0.1, pack: 1000 });
    for (const form of ['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const) {
      silent.composition.content[form] = { low: 0, stated: null, high: 200 };
    }
    const rule = {
      kind: 'linear' as const,
      text: 'NH4 <= 0.25 * N',
      terms: { 'NH4-N': 1, N: -0.25 },
      upper: 0,
      from: { owner: 'you' as const },
    };
    const result = made(await blend(request([silent, calcium], { N: { min: 100 } }, { rules: [rule] })));
    // worst case: silent is all ammonium, so it may bring 25 of the 100 mg N
    expect(result.items.find((i) => i.id === 'silent')!.gramsPerLitre).toBeCloseTo(0.125, 9);
    // were it known to be nitrate, all N could come from it: 0.5 g/L · 0.0001 = 0.00005 EUR/L
    expect(silences(result)).toContain('0.00005');
  });

  it('says which limits conflict when none can be met, and gives the nearest', async () => {
    const rule = {
      kind: 'linear' as const,
      text: 'NH4 <= 0 * N',
      terms: { 'NH4-N': 1 },
      upper: 0,
      from: { owner: 'you' as const },
    };
    const result = cannot(await blend(request([ammonium], { N: { min: 100 } }, { rules: [rule] })));
    expect(result.proof.verdict).toBe('infeasible');
    expect(result.conflict.map((c) => limitSays(c.limit)).sort()).toEqual(['N ≥ 100 mg/L', 'NH4 <= 0 * N']);
    expect(result.nearest!.items).toEqual([]);
    expect(result).not.toHaveProperty('items');
  });

  it('seeks the lightest mix on a shelf without prices', async () => {
    const bare = [ammonium, calcium].map((p) => p.with({ price: undefined, pack: undefined }));
    const result = made(await blend(request(bare, { N: { min: 100 } })));
    expect(result.items.map((i) => [i.id, i.gramsPerLitre])).toEqual([['ammonium', expect.closeTo(0.5, 9)]]);
    expect(proofSentence(result.proof)).toContain('lighter');
  });

  it('uses at most the number of products asked for', async () => {
    const bands = { N: { min: 100 }, K: { min: 50 }, Ca: { min: 40 } };
    const free = made(await blend(request([nitrate, ammonium, calcium], bands)));
    expect(free.items).toHaveLength(3);
    const two = made(await blend(request([nitrate, ammonium, calcium], bands, { atMost: 2 })));
    expect(two.items.map((i) => i.id).sort()).toEqual(['calcium', 'nitrate']);
    expect(two.costPerLitre).toBeGreaterThan(free.costPerLitre);
    const one = cannot(await blend(request([nitrate, ammonium, calcium], bands, { atMost: 1 })));
    expect(one.relaxations).toMatchObject([{ from: 1, to: 2 }]);
  });
});

describe('blend, closest', () => {
  it('minimises the largest relative miss, then the sum, then cost (hand calculation)', async () => {
    // one product brings N and K as 1 : 2; aims 100 and 100: N = 66.67, K = 133.3 share a miss of one third
    const fixed = powder('fixed', { 'NO3-N': 10, K: 20 }, { price: 1, pack: 1000 });
    const result = made(
      await blend(
        request(
          [fixed],
          { N: { min: 10, aim: 100, max: 200 }, K: { min: 10, aim: 100, max: 200 } },
          { goal: 'closest' },
        ),
      ),
    );
    expect(result.items[0]!.gramsPerLitre).toBeCloseTo(2 / 3, 5);
    expect(result.proof.stages.map((s) => s.goal)).toEqual(['largest miss', 'sum of misses', 'cost']);
    expect(result.proof.stages[0]!.found).toBeCloseTo(1 / 3, 6);
  });

  it('prefers the cheaper of two equally close mixes', async () => {
    const dear = powder('dear', { 'NO3-N': 10 }, { price: 9, pack: 1000 });
    const cheap = powder('cheap', { 'NO3-N': 10 }, { price: 1, pack: 1000 });
    const result = made(
      await blend(request([dear, cheap], { N: { min: 50, aim: 100, max: 200 } }, { goal: 'closest' })),
    );
    expect(result.items.map((i) => i.id)).toEqual(['cheap']);
  });
});

describe('what silence costs', () => {
  it('is told for the closest feed and for a limit on products, too', async () => {
    const silent = powder('silent', { N: 20 }, { price: 0.1, pack: 1000 });
    for (const form of ['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const) {
      silent.composition.content[form] = { low: 0, stated: null, high: 200 };
    }
    const rule = {
      kind: 'linear' as const,
      text: 'NH4 <= 0.25 * N',
      terms: { 'NH4-N': 1, N: -0.25 },
      upper: 0,
      from: { owner: 'you' as const },
    };
    const bands = { N: { min: 50, aim: 100, max: 110 }, Ca: { min: 10, aim: 20, max: 200 } };
    // worst case: 25 mg N from silent, 75 from calcium nitrate, which brings 100 mg Ca where 20 are wanted
    const closest = made(await blend(request([silent, calcium], bands, { rules: [rule], goal: 'closest' })));
    expect(silences(closest)).toMatch(/might come within 0 % of its aims instead of/);
    const one = made(await blend(request([silent, calcium], { N: { min: 100 } }, { rules: [rule], atMost: 1 })));
    expect(one.items.map((i) => i.id)).toEqual(['calcium']);
    expect(silences(one)).toContain('0.00005');
  });
});

describe('the nearest mix', () => {
  it('lets a ratio give way rather than starve the can for want of one element', async () => {
    // no calcium on the shelf: Ca >= 2 * Mg kept hard would forbid the one-part feed, which holds magnesium, altogether
    const onePart = powder('one-part', { 'NO3-N': 10, P: 2, K: 10, Mg: 2, S: 3 }, { price: 5, pack: 1000 });
    const bands = { N: { min: 50 }, P: { min: 5 }, K: { min: 40 }, Mg: { min: 5 }, S: { min: 5 }, Ca: { min: 20 } };
    const ratio = {
      kind: 'linear' as const,
      text: 'Ca >= 2 * Mg',
      terms: { Ca: 1, Mg: -2 },
      lower: 0,
      from: { owner: 'programme' as const },
    };
    const base = request([onePart], bands);
    const result = cannot(await blend({ ...base, programme: { ...base.programme, rules: [ratio] } }));
    expect(result.nearest!.misses.map((m) => missName(m.limit)).sort()).toEqual(['Ca >= 2 * Mg', 'Ca min']);
    // the grower's own rule stays
    const own = cannot(await blend(request([onePart], bands, { rules: [{ ...ratio, from: { owner: 'you' } }] })));
    expect(own.nearest!.misses.map((m) => missName(m.limit))).not.toContain('Ca >= 2 * Mg');
  });
});
