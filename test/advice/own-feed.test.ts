import { milliSiemensPerCm } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { translateAdvice } from '../../src/advice/translate-advice.js';
import { mixNearAims } from './near-mix.js';
import type { OwnFeed } from '../../src/advice/own-feed.js';
import { parseAdvice } from '../../src/advice/parse.js';
import type { AdviceHeld, AdviceResult } from '../../src/advice/types.js';
import type { Programme } from '../../src/programme/programme.js';
import { atStrength } from '../../src/programme/strength.js';
import { unwrap } from '../../src/problem.js';
import { inMg, powder, pure, request, water } from '../feed/fixtures.js';
import { adviceJson } from '../../src/report/json/assess.js';
import { limitedSays } from '../../src/report/says/advice.js';

// three pure salts: potassium nitrate, monoammonium phosphate, calcium nitrate tetrahydrate (CIAAW 2021 weights); prices invented
const kno3 = powder('kno3', { 'NO3-N': 13.85, K: 38.67 }, { price: 7, pack: 1000 });
const map = powder('map', { 'NH4-N': 12.18, P: 26.93 }, { price: 9, pack: 1000 });
const cal = powder('cal', { 'NO3-N': 11.86, Ca: 16.97 }, { price: 4, pack: 1000 });

/** N aim 100, 160 at most, and EC to 1.6 at full strength. */
const FULL: Programme = {
  plants: 'test plants',
  medium: 'sphagnum',
  phase: 'growth',
  bands: inMg({
    N: { min: 50, aim: 100, max: 160 },
    P: { min: 5, max: 60 },
    K: { min: 60, max: 250 },
    Ca: { min: 10, max: 250 },
  }),
  rules: [{ kind: 'ec', text: 'EC <= 1.6', upper: milliSiemensPerCm(1.6), from: { owner: 'programme' } }],
  evidence: [],
};

function own(full: Programme = FULL, water = pure): OwnFeed {
  const at = (percent: number) => {
    const scaled = atStrength(full, { kind: 'percent', percent });
    return scaled.ok
      ? { ...request([kno3, map, cal], {}, { programme: scaled.value.programme }), waters: [water] }
      : null;
  };
  return { at, mix: mixNearAims, percent: 50, full, header: at(50)!.header };
}

async function translated(text: string, feed: OwnFeed | null = own()): Promise<AdviceResult> {
  return unwrap(await translateAdvice(unwrap(parseAdvice(text)), feed));
}

/** What the own feed was held against; fails where there is nothing. */
function heldOf(result: AdviceResult): AdviceHeld['own'] {
  if (result.status === 'no feed') throw new Error('held against nothing');
  return result.own;
}

describe('the same strength with the own feed', () => {
  it.each([20, 60, 90, 98])('gives the nitrogen of %d ppm N', async (nitrogen) => {
    const result = await translated(`${nitrogen} ppm N`);
    const { low, high } = heldOf(result).matches[0]!;
    expect(high).toBe(low);
    // strengths are printed to half a per cent of themselves
    expect(Math.abs(low.nitrogen / nitrogen - 1)).toBeLessThan(0.0075);
    expect(low.limitedBy).toBeNull();
    expect(result.status).toBe('within');
  });

  it.each([0.3, 0.6, 0.8])('reads %d mS/cm, water included', async (mSPerCm) => {
    // half a mmol/L of calcium bicarbonate reads some 0.1 mS/cm
    const hard = water({ mgPerLitre: { Ca: 20.04 }, alkalinity: 50 });
    for (const water of [pure, hard]) {
      const { low } = heldOf(await translated(`EC ${mSPerCm}`, own(FULL, water))).matches[0]!;
      expect(Math.abs(low.ec / mSPerCm - 1)).toBeLessThan(0.0075);
    }
    const [soft, less] = await Promise.all(
      [pure, hard].map(async (w) => heldOf(await translated(`EC ${mSPerCm}`, own(FULL, w)))),
    );
    expect(less!.waterEc).toBeGreaterThan(0.08);
    expect(less!.matches[0]!.low.nitrogen).toBeLessThan(soft!.matches[0]!.low.nitrogen);
  });

  it('is the mix near its aims at the strength it names', async () => {
    const feed = own();
    const { low, high } = heldOf(await translated('60-120 ppm N', feed)).matches[0]!;
    for (const end of [low, high]) {
      const mixed = (await mixNearAims(feed.at(end.percent)!))!;
      expect(end.items.map((i) => [i.id, i.gramsPerLitre])).toEqual(mixed.items.map((i) => [i.id, i.gramsPerLitre]));
    }
    expect(low.percent).toBeLessThan(high.percent);
  });

  it('holds the two ends of a range, and every reading of loose words', async () => {
    const result = await translated('200 ppm');
    expect(heldOf(result).matches).toHaveLength(result.readings.length);
    const [nitrogen, ...pens] = heldOf(result).matches.map((m) => m!.low);
    expect(pens.map((p) => p.percent)).toEqual([...pens.map((p) => p.percent)].sort((a, b) => b - a));
    expect(nitrogen!.percent).toBe(100);
    expect(nitrogen!.limitedBy).toEqual({ kind: 'full strength' });
    expect(limitedSays(nitrogen!.limitedBy!)).toContain('nothing past 100 % is advised');
    expect(result.status).toBe('partly');
  });

  it('is never stronger than the programme takes at full strength', async () => {
    const strong = await translated('400 ppm N');
    const end = heldOf(strong).matches[0]!.low;
    expect(strong.status).toBe('outside');
    expect(end.percent).toBe(100);
    expect(end.nitrogen).toBeLessThanOrEqual(100 * 1.02);
    const ec = heldOf(await translated('EC 5')).matches[0]!.low;
    expect(ec.ec).toBeLessThanOrEqual(1.6 * (1 + 1e-6));
    expect(ec.limitedBy).not.toBeNull();
  });

  it('has no dose past full strength, whatever is advised', async () => {
    for (const text of [
      '101 ppm N',
      '150 ppm N',
      '300 ppm',
      '5 g/L of 20-20-20',
      'double strength 20-20-20 at 1 tsp/gal',
      'EC 3',
    ])
      for (const match of heldOf(await translated(text)).matches)
        for (const end of [match!.low, match!.high]) expect(end.percent, text).toBeLessThanOrEqual(100);
  });

  it('keeps every other ceiling at full strength too', async () => {
    const tight: Programme = { ...FULL, bands: { ...FULL.bands, ...inMg({ Ca: { min: 40, max: 85 } }) } };
    const feed = own(tight);
    const end = heldOf(await translated('150 ppm N', feed)).matches[0]!.low;
    expect(end.elements.find((e) => e.element === 'Ca')!.mgPerLitre).toBeLessThanOrEqual(85 * (1 + 1e-6));
    const asked = feed.at(end.percent)!;
    const mixed = (await mixNearAims(asked))!;
    expect(end.items.map((i) => [i.id, i.gramsPerLitre])).toEqual(mixed.items.map((i) => [i.id, i.gramsPerLitre]));
  });

  it('has nothing to add where the water alone reads that much', async () => {
    const hard = water({ mgPerLitre: { Ca: 20.04 }, alkalinity: 50 });
    const end = heldOf(await translated('EC 0.09', own(FULL, hard))).matches[0]!.low;
    expect(end.items).toEqual([]);
    expect(end.limitedBy).toMatchObject({ kind: 'water' });
  });

  it('says so where no feed can be mixed, and translates all the same', async () => {
    const impossible: Programme = {
      ...FULL,
      rules: [
        {
          kind: 'linear' as const,
          text: 'Ca <= 0.01 * N',
          terms: { Ca: 1, N: -0.01 },
          upper: 0,
          from: { owner: 'you' as const },
        },
      ],
    };
    const result = await translated('100 ppm N', own(impossible));
    expect(result.status).toBe('no feed');
    expect(result.notes).toContainEqual({ kind: 'no own feed' });
    expect(adviceJson(result).own).toBeNull();
    const alone = await translated('100 ppm N', null);
    expect(alone.status).toBe('no feed');
    expect(alone.notes).not.toContainEqual({ kind: 'no own feed' });
  });

  it('holds a feed without nitrogen against its potassium', async () => {
    const result = await translated('0.3 g/L of 0-5-10');
    expect(result.readings[0]!.counts).toBe('K');
    const k = heldOf(result).matches[0]!.low.elements.find((e) => e.element === 'K')!;
    expect(k.mgPerLitre / result.readings[0]!.wanted!.low).toBeCloseTo(1, 1);
  });
});
