import { describe, expect, it } from 'vitest';
import { parseHorizon } from '../../../src/desk/options/horizon.js';
import { momentOf, parsePenValue, parseScale, parseStepReading, scaleOf } from '../../../src/desk/options/pen.js';
import { type Beside, type ReadKey, readWish, type ValueOf } from '../../../src/desk/options/read-wish.js';
import { parseWaterWords } from '../../../src/desk/options/water.js';

/** The value that an option is read as, or the code of the Problem. */
function read<K extends ReadKey>(key: K, text: string, ...beside: Beside<K>): ValueOf<K> | string {
  const found = readWish(key, text, ...beside);
  return found.ok ? found.value : found.problems[0]!.code;
}

describe('an option is read as', () => {
  it.each([
    ['0', 0],
    ['10 %', 0.1],
    ['10%', 0.1],
    ['0.25', 0.25],
    ['.5', 0.5],
    ['100 %', 1],
    ['10', 'share'],
    ['-1', 'share'],
    ['1e-1', 0.1],
    ['0,1', 0.1],
    ['lots', 'share'],
    ['120 %', 'share'],
  ])('--nh4 "%s": %s', (text, share) => {
    expect(read('nh4', text)).toBe(share);
  });

  it.each([
    ['3', 3],
    ['0', 'count'],
    ['2.5', 'count'],
    ['-1', 'count'],
    ['99999', 'count'],
    ['three', 'count'],
  ])('--count "%s": %s', (text, count) => {
    expect(read('count', text)).toBe(count);
  });

  it.each([
    ['0', 0],
    ['2', 2],
    ['x', 'number-of-products'],
    ['-1', 'number-of-products'],
  ])('--at-most "%s": %s', (text, count) => {
    expect(read('atMost', text)).toBe(count);
  });

  it.each([
    ['90 %', 0.9],
    ['99.9%', 0.999],
    ['0.5', 0.5],
    ['90', 'sure'],
    ['40 %', 'sure'],
    ['100 %', 'sure'],
  ])('--sure "%s": %s', (text, share) => {
    expect(read('sure', text)).toBe(share);
  });

  it.each([
    [read('ratio', '1:100'), 100],
    [read('ratio', '100'), 100],
    [read('ratio', '1 / 128'), 128],
    [read('ratio', '2:100'), 50],
    [read('dose', '10 mL/L'), 100],
    [read('dose', '1 mL/L'), 1000],
    [read('jug', '2 L'), 2000],
    [read('coldest', '10'), 10],
    [read('coldest', '50 °F'), 10],
    [read('coldest', '0 C'), 0],
    [read('coldest', '−1 °C'), 'coldest'],
    [read('tanks', '2'), 2],
    [read('tanks', 'two'), 'tanks'],
    [read('spoon', '1/4 tsp'), 4.92892159375 / 4],
    [read('spoon', '1 L'), 'spoon'],
    [read('mix', '100 mL'), 0.1],
    [read('mix', '99 mL'), 'volume'],
    [read('brim', '1 US gal'), 3.785411784],
    [read('measured', '3 kg'), 'volume'],
    [read('temperature', '18'), 18],
    [read('temperature', '64.4 °F'), expect.closeTo(18, 9)],
    [read('temperature', '60 °C'), 'temperature'],
    [read('budget', '30', { currency: 'EUR' }), 30],
    [read('budget', 'lots', { currency: 'EUR' }), 'number-option'],
    [read('seconds', '0'), 'number-option'],
    [read('date', '2024-02-29'), '2024-02-29'],
    [read('date', '2026-02-29'), 'date'],
    [read('compensates', 'no'), false],
    [read('compensates', 'maybe'), 'yes-or-no'],
    [read('penFactor', '1,05'), 1.05],
    [read('penFactor', '3'), 'pen-factor'],
  ])('%#', (value, expected) => {
    expect(value).toEqual(expected);
  });

  it('a dose by a spoon in a gallon: 2 US tsp in 1 US gal is 2.604 mL in a litre', () => {
    // 4.92892159375 mL and 3.785411784 L, by definition
    expect(read('dose', '2 tsp / US gal')).toBeCloseTo(3785.411784 / (2 * 4.92892159375), 9);
  });

  it('a water by its name or an analysis', () => {
    const value = (text: string) => {
      const words = parseWaterWords(text, {});
      return words.ok ? words.value : words.problems[0]?.found;
    };
    expect(value('rain')).toBe('rain');
    expect(value('Ca=40, Mg = 11,alkalinity:130')).toEqual({ Ca: '40', Mg: '11', alkalinity: '130' });
    expect(value('Ca=40, Mg')).toBe('"Mg"');
    expect(value('Ca=40, Ca=41')).toBe('Ca twice');
  });

  it('a time to buy for: 26 weeks, unless one of three says otherwise', () => {
    const weeks = (said: Partial<Parameters<typeof parseHorizon>[0]>) => {
      const found = parseHorizon({ year: false, ...said });
      return found.ok ? found.value : found.problems[0]!.code;
    };
    expect([weeks({}), weeks({ year: true }), weeks({ weeks: '4' }), weeks({ months: '6' })]).toEqual([26, 52, 4, 26]);
    expect([weeks({ weeks: '0' }), weeks({ months: '1', year: true })]).toEqual(['horizon', 'two-horizons']);
  });
});

describe('what the pen shows', () => {
  const where = { field: '--reading' };
  it.each([
    ['0.46', null, 0.46],
    ['0,46', null, 0.46],
    ['460 µS', null, 0.46],
    ['460 uS/cm', 500, 0.46],
    ['230 ppm', 500, 0.46],
    ['230', 500, 0.46],
    ['0.46', 500, 0.46],
    ['322', 700, 0.46],
  ])('%s on scale %s is %f mS/cm', (text, scale, mSPerCm) => {
    const value = parsePenValue(text, scale, where);
    expect(value.ok && value.value.mSPerCm).toBeCloseTo(mSPerCm, 9);
  });

  it('steps count as on the sheet: the water, the items, the top-up', () => {
    const moments = [1, 2, 3, 4, 'end' as const].map((step) => momentOf(step, ['a', 'b'], where));
    expect(moments.map((m) => m.ok && m.value)).toEqual([0, 1, 2, 'end', 'end']);
    expect(momentOf(0, ['a'], where).ok).toBe(false);
    const step = parseStepReading('step 2: 0.3', null, where);
    expect(step.ok && step.value.step).toBe(2);
  });

  it('a scale is what the pen shows, EC or ppm', () => {
    expect(scaleOf({ reads: 'ppm', scale: 640 })).toBe(640);
    expect([scaleOf({ reads: 'EC' }), scaleOf(undefined)]).toEqual([null, null]);
    expect(parseScale('EC', where)).toMatchObject({ value: null });
    expect(parseScale('0.7', where)).toMatchObject({ value: 700 });
  });

  it.each([
    ['1350', null, 'µS/cm', 1.35],
    ['1.35', null, undefined, 1.35],
    ['675', 500, 'ppm', 1.35],
    ['1.35 mS', 500, 'ppm', 1.35],
  ])('a bare "%s" on scale %s beside %s is %f mS/cm', (text, scale, bare, mSPerCm) => {
    const found = readWish('reads', text, { scale, bare });
    expect(found.ok && found.value.mSPerCm).toBeCloseTo(mSPerCm, 9);
  });
});
