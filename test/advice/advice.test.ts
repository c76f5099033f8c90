import { describe, expect, it } from 'vitest';
import { isAdvice, parseAdvice } from '../../src/advice/parse.js';
import { translate } from '../../src/advice/translate.js';
import type { AdviceReading } from '../../src/advice/types.js';
import { formatNumber } from '../../src/units/index.js';
import { referenceRows } from '../reference/reference.js';
import { powder } from '../feed/fixtures.js';
import { adviceNoteSays, senseSays } from '../../src/report/says/advice.js';

function translated(text: string) {
  const advice = parseAdvice(text);
  if (!advice.ok) throw new Error(JSON.stringify(advice.problems));
  const read = translate(advice.value);
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.value;
}

const readings = (text: string): AdviceReading[] => translated(text).readings;
const only = (text: string): AdviceReading => {
  const all = readings(text);
  expect(all).toHaveLength(1);
  return all[0]!;
};
const element = (reading: AdviceReading, name: string): { low: number; high: number } =>
  reading.elements.find((e) => e.element === name)!;

describe('advice against handbooks', () => {
  // UMass Extension, Fertilizer Calculations for Greenhouse Crops: printed figures are rounded up by about 1 %, hence 2 %.
  it.each([
    ['13.5 oz/100 US gal of 20-20-20', 200],
    ['18 oz per 100 US gallons of a 15-15-15', 200],
  ])('UMass: %s is 200 mg/L N', (text, nitrogen) => {
    const { low, high } = element(only(text), 'N');
    expect(high).toBe(low);
    expect(Math.abs(low / nitrogen - 1)).toBeLessThan(0.02);
  });

  // The same UMass table holds for concentrates: ounces per gallon of stock at 1:100 are ounces per 100 gallons of feed.
  it('UMass: 13.5 oz per gallon of 20-20-20 stock in a 1:100 injector is 200 mg/L N', () => {
    const { low, high } = element(only('13.5 oz per US gal of 20-20-20 in a 1:100 injector'), 'N');
    expect(Math.abs(high / 200 - 1)).toBeLessThan(0.02);
    // one part in 100, or one part to 100 of water
    expect(high / low).toBeCloseTo(101 / 100, 9);
  });

  // Texas A&M, Nutrient calculations: ounces printed whole, half an ounce of 22 is 2.3 %.
  it('Texas A&M: 22 oz of 15 % N in 100 US gal is 250 mg/L', () => {
    const { low } = element(only('22 oz/100 US gal of 15-0-0'), 'N');
    expect(Math.abs(low / 250 - 1)).toBeLessThan(0.5 / 22);
  });

  // Wang & Konow 2002, J. Amer. Soc. Hort. Sci. 127:442: 20-5-19 at 200 mg/L N gives 22 mg/L P and is 20N-2.2P-15.8K.
  it('Wang & Konow: 200 ppm N of 20-5-19 gives 22 mg/L P and 158 mg/L K', () => {
    const reading = only('200 ppm N of 20-5-19');
    expect(formatNumber(element(reading, 'P').low, 2)).toBe('22');
    expect(formatNumber(element(reading, 'K').low, 3)).toBe('158');
    const elemental = only('200 ppm N of 20N-2.2P-15.8K');
    // the elemental figures are printed to a tenth of a per cent: 0.05 of 2.2 is 2.3 %
    expect(Math.abs(element(elemental, 'P').low / element(reading, 'P').low - 1)).toBeLessThan(0.05 / 2.2);
  });

  // Two meter manuals: 1413 µS/cm (0.01 M KCl at 25 °C) reads 702 ppm NaCl, 745 ppm KCl, 1000 ppm "442".
  it.each(['702 ppm on a NaCl scale', '745 ppm KCl', '1000 ppm (442 scale)'])(
    'meter manuals: %s is 1.413 mS/cm',
    (text) => {
      const { low, high } = only(text).wanted!;
      expect(low).toBeLessThanOrEqual(1.413 + 1e-9);
      expect(high).toBeGreaterThanOrEqual(1.413 - 1e-9);
      // pens round these scales to 0.5 and 0.7: within 1.1 %
      expect(high / low).toBeLessThanOrEqual(1000 / 1.413 / 700 + 1e-9);
    },
  );
});

describe('what words leave open', () => {
  it('reads a gallon that is not named both ways, and a spoon with it', () => {
    const [us, imperial, ...more] = readings('1 tsp/gal of 20-20-20');
    expect(more).toEqual([]);
    // 4.929 mL in 3.785 L, 5 mL in 4.546 L (exact by definition); 0.6 to 1.4 g/mL from memory
    expect(us!.gramsPerLitre!.low).toBeCloseTo((4.92892159375 * 0.6) / 3.785411784, 9);
    expect(us!.gramsPerLitre!.high).toBeCloseTo((4.92892159375 * 1.4) / 3.785411784, 2);
    expect(imperial!.gramsPerLitre!.low).toBeCloseTo((5 * 0.6) / 4.54609, 2);
    expect(imperial!.gramsPerLitre!.high).toBeCloseTo((5 * 1.4) / 4.54609, 9);
  });

  it('has each named gallon among the readings of a bare one', () => {
    const bare = readings('1 tbsp per 5 gal of 12-3-13');
    const us = only('1 US tbsp per 5 US gal of 12-3-13');
    expect(bare[0]).toEqual(us);
    expect(bare[1]!.gramsPerLitre).toEqual(only('1 tbsp per 5 imperial gal of 12-3-13').gramsPerLitre);
  });

  it('takes a share of a rate, and of a range', () => {
    const full = only('1-2 g/L of 20-10-20');
    const quarter = only('quarter strength of a 20-10-20 at 1-2 g/L');
    expect(quarter.gramsPerLitre).toEqual({ low: full.gramsPerLitre!.low / 4, high: full.gramsPerLitre!.high / 4 });
    expect(element(full, 'N')).toMatchObject({ low: 200, high: 400 });
    expect(only('half strength of EC 1.6').wanted).toEqual({ low: 0.8, high: 0.8 });
  });

  it.each([
    '1/4 strength 20-20-20 (½ g/L)',
    'quarter strength, 0.5 g/L 20-20-20',
    '1/4 strength of 20-20-20 = 1/2 g/L',
  ])('does not guess whether %s names the full strength', (text) => {
    expect(readings(text).map((r) => r.gramsPerLitre!.low)).toEqual([0.125, 0.5]);
  });

  it('reads ppm of nobody knows what as nitrogen and on every scale, never as one', () => {
    expect(readings('200 ppm').map((r) => [r.counts, r.wanted!.low])).toEqual([
      ['N', 200],
      ['EC', 0.4],
      ['EC', 0.3125],
      ['EC', 200 / 700],
    ]);
    expect(translated('200 ppm').certainty).toBe('range');
    expect(readings('200 ppm on a pen').map((r) => r.counts)).toEqual(['EC', 'EC', 'EC']);
    expect(readings('TDS 200')).toEqual(readings('200 ppm on a pen'));
    expect(readings('200 ppm of 20-20-20').map((r) => r.sense)).toContainEqual({ kind: 'product' });
  });

  it('says that a share of an unknown strength is unknown', () => {
    const { certainty, readings: all, needed, notes } = translated('half strength 20-10-20');
    expect(certainty).toBe('base unknown');
    expect(all.every((r) => r.sense.kind === 'usual rate')).toBe(true);
    expect(needed[0]).toEqual({ kind: 'label rate' });
    expect(notes[0]).toEqual({ kind: 'unknown base', share: 0.5 });
    expect(adviceNoteSays(notes[0]!)).toContain('common practice, no source');
  });

  it('counts a liquid by weight and by volume', () => {
    const reading = only('5 mL/L of 6-4-7');
    expect(element(reading, 'N').low).toBeCloseTo(300, 9);
    expect(element(reading, 'N').high).toBeCloseTo(420, 9);
    // 60 % of salts stay dissolved in no bottle (from memory): that is a powder
    expect(only('5 mL/L of 20-20-20').gramsPerLitre).toEqual({ low: 3, high: 7 });
    expect(only('5 mL/L of a 3-1-2 powder').gramsPerLitre).toEqual({ low: 3, high: 7 });
  });

  // Conductivities by an independent speciation code, composition from CIAAW 2021 weights: the first lines of the two tables.
  const composition = new Map(referenceRows('salt_composition.csv').map((row) => [row.get('salt')!, row]));
  const salts = referenceRows('conductivity_single_salts.csv').flatMap((row) => {
    const [salt, grams] = row.get('recipe_g_per_L')!.split(':') as [string, string];
    const held = composition.get(salt);
    const other = ['Ca', 'Mg', 'Na'].some((metal) => Number(held?.get(`pct_${metal}`)) > 0);
    return held === undefined || other || salt.includes('+')
      ? []
      : [{ salt, grams, held, mSPerCm: Number(row.get('EC25_air_uS_cm')) / 1000 }];
  });
  it.each(salts)('holds the EC of $salt at $grams g/L within that of its grade', ({ grams, held, mSPerCm }) => {
    const [n, p, k] = ['N', 'P', 'K'].map((e) => Number(held.get(`pct_${e}`)));
    const { ec } = only(`${grams} g/L of ${n}N-${p}P-${k}K`);
    expect(ec!.low).toBeLessThan(mSPerCm);
    expect(ec!.high).toBeGreaterThan(mSPerCm);
  });

  it('knows that urea does not conduct', () => {
    expect(salts.length).toBeGreaterThan(15);
    expect(only('1 g/L of 46-0-0').ec!.low).toBeLessThan(0.01);
  });
});

describe('ways of saying the same', () => {
  it.each([
    [
      '125 ppm N',
      [
        'N 125 ppm',
        '125 mg/L nitrogen',
        '125 mg N per litre',
        'I use 125 mg N/L',
        '125 ppm of nitrogen at every watering',
        'about 125 ppm N',
      ],
    ],
    ['EC 0.8', ['0.8 mS/cm', 'EC = 0.8 dS/m', '800 µS', '800 uS/cm EC', 'EC 800', 'CF 8', 'EC of 0.8 mS']],
    ['200 ppm on a 500 pen', ['200 ppm (500 scale)', '200 ppm 0.5 conversion', 'TDS 200 on the 500 scale']],
    [
      '1/4 tsp per US gal of 14-4-17',
      [
        '¼ teaspoon 14-4-17 per US gallon',
        'a quarter teaspoon of 14-4-17 in a US gallon of water',
        '0.25 tsp/US gal of a 14-4-17 fertilizer',
        'quarter tsp of 14-4-17 fertiliser per US gallon, weekly',
        '1/4 teaspoon a US gallon, 14-4-17 Ca-Mg',
        '25 % strength 14-4-17 at 1 tsp per US gal',
        '1/4 strength of a 14-4-17 at 1 tsp/US gal',
      ],
    ],
    ['100-150 ppm N', ['100 to 150 ppm N', '100–150 mg/L of N', 'N: 150 to 100 ppm']],
    ['17 ppm P', ['38.9524 ppm P2O5']],
  ])('%s', (plain, others) => {
    for (const other of others) {
      const [a, b] = [readings(plain), readings(other)];
      expect(b.map((r) => r.counts)).toEqual(a.map((r) => r.counts));
      a.forEach((r, i) => {
        expect(b[i]!.wanted!.low / r.wanted!.low).toBeCloseTo(1, 5);
        expect(b[i]!.wanted!.high / r.wanted!.high).toBeCloseTo(1, 5);
      });
    }
  });

  it('knows a recipe from advice', () => {
    const shelf = [powder('base', { 'NO3-N': 10 }), { ...powder('bloom', {}), name: 'Bloom 10-30-20' }];
    for (const text of [
      '125 ppm N',
      'quarter strength 20-20-20',
      '1 tsp/gal of 14-4-17',
      '400 µS',
      'EC 1',
      '12-3-13-5Ca-2Mg at 1 g/L',
    ])
      expect(isAdvice(text, shelf), text).toBe(true);
    for (const text of [
      '1 g base in 4 L',
      '1 tsp base in 1 gal',
      '1 g Bloom 10-30-20 in 1 gal',
      '1 g base + 2 g 20-20-20 in 4 L',
      'hello',
    ])
      expect(isAdvice(text, shelf), text).toBe(false);
  });

  it('counts calcium and magnesium that a grade names', () => {
    const reading = only('1 g/L of 12-3-13-5Ca-2Mg');
    expect(element(reading, 'Ca')).toMatchObject({ low: 50, high: 50 });
    expect(element(reading, 'Mg')).toMatchObject({ low: 20, high: 20 });
  });
});

describe('whatever is written', () => {
  /** A small generator with a seed: the same texts on every run. */
  function seeded(seed: number): (n: number) => number {
    let state = seed;
    return (n) => {
      state = (Math.imul(state, 1664525) + 1013904223) >>> 0;
      return Math.floor((state / 2 ** 32) * n);
    };
  }
  const PARTS = [
    '1/4',
    '20-20-20',
    'tsp',
    'per',
    'US gal',
    'gal',
    'half',
    'strength',
    '200',
    'ppm',
    'N',
    'EC',
    '0.8',
    'µS',
    'on a',
    '500',
    'pen',
    '/',
    'L',
    '%',
    '-',
    'of',
    '5 mL',
    'zzz',
    '0',
    '1e9',
    '٣',
    '1,000',
  ];

  it('never throws, never is NaN, and reads nothing it does not understand', () => {
    const pick = seeded(7);
    let read = 0;
    for (let i = 0; i < 4000; i += 1) {
      const text = Array.from({ length: 1 + pick(9) }, () => PARTS[pick(PARTS.length)]!).join(' ');
      const advice = parseAdvice(text);
      if (!advice.ok) {
        expect(advice.problems.length, text).toBeGreaterThan(0);
        continue;
      }
      expect(text).not.toMatch(/zzz|٣/);
      const result = translate(advice.value);
      if (!result.ok) continue;
      read += 1;
      expect(result.value.readings.length, text).toBeGreaterThan(0);
      for (const r of result.value.readings)
        for (const span of [r.wanted, r.gramsPerLitre, r.ec, ...r.elements].filter((s) => s !== null)) {
          expect(Number.isFinite(span.low) && Number.isFinite(span.high), text).toBe(true);
          expect(span.low, text).toBeLessThanOrEqual(span.high);
          expect(span.low, text).toBeGreaterThanOrEqual(0);
        }
    }
    expect(read).toBeGreaterThan(20);
  });
});

describe('what stands around a strength', () => {
  it.each([
    'EC 0.4 above the water',
    '0.4 mS/cm above tap',
    '400 µS on top of your own water',
    '0.4 mS plus rain',
    '200 ppm above the base water on a 500 pen',
  ])('"%s" is what the feed adds', (text) => {
    expect(only(text)).toMatchObject({ counts: 'EC', wanted: { low: 0.4, high: 0.4 }, sense: { aboveWater: true } });
  });

  it('ppm above the water are those of a pen, on any scale', () => {
    expect(readings('200 ppm above the water').map((r) => r.wanted!.high)).toEqual([0.4, 0.3125, 200 / 700]);
  });

  it.each(['max EC 0.8', 'EC no more than 0.8 mS', 'at most 0.8 mS/cm', 'up to 800 µS', 'below EC 0.8'])(
    '"%s" is a ceiling',
    (text) => {
      const reading = only(text);
      expect(reading.wanted!.high).toBe(0.8);
      expect(parseAdvice(text)).toMatchObject({ value: { around: { atMost: true } } });
      expect(senseSays(reading.sense, true)).toBe('at most: EC of the can');
      expect(translated(text).certainty).toBe('range');
    },
  );

  it.each([
    ['100 g/L of 14-4-17 in a 1:100 injector', 1 / 101, 1 / 100],
    ['dilute 1:200, 100 g/L of 14-4-17 stock', 1 / 201, 1 / 200],
    ['100 g/L of 14-4-17 stock, diluted 1 to 50', 1 / 51, 1 / 50],
    ['a 1 % injector of 100 g/L 14-4-17', 1 / 100, 1 / 100],
    ['100 g per litre of 14-4-17 through a proportioner at 1:128', 1 / 129, 1 / 128],
  ])('"%s"', (text, low, high) => {
    const grams = only(text).gramsPerLitre!;
    expect(grams.low).toBeCloseTo(100 * low, 9);
    expect(grams.high).toBeCloseTo(100 * high, 9);
  });

  it.each([
    '1 g/L of 20-20-20 every second week',
    '1 g/L of 20-20-20 every 2 weeks',
    '1 g/L 20-20-20 twice a month',
    'fortnightly 1 g/L of 20-20-20',
    '20-20-20, 1 g/L, 3 times per week',
    '1 g/L of 20-20-20 every 7 to 10 days',
  ])('"%s": how often is told, not translated', (text) => {
    expect(only(text).gramsPerLitre).toEqual({ low: 1, high: 1 });
    expect(translated(text).notes).toContainEqual({ kind: 'how often' });
  });

  it('units that touch their figure, TDS behind it', () => {
    expect(isAdvice('125ppm', [])).toBe(true);
    expect(readings('300 TDS').map((r) => r.wanted!.high)).toEqual(readings('TDS 300').map((r) => r.wanted!.high));
  });
});
