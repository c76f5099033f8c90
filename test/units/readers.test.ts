import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  inMilliSiemens,
  otherCurrency,
  type Read,
  readConductivity,
  readFigure,
  readMoney,
  readPenScale,
  readPlainNumber,
  readShare,
  readTemperature,
} from '../../src/units/index.js';

const READERS: Record<string, (text: string) => Read<unknown>> = {
  readConductivity,
  readFigure,
  readMoney,
  readPenScale,
  readPlainNumber,
  readShare,
  readTemperature,
};

describe('readers of quantities', () => {
  it.each(Object.entries(READERS))('%s refuses what could mean two things, and no number at all', (_, read) => {
    for (const text of ['1,234', '1 234', '1\u202f234,5', '1.234,50', '1,234.50', "1'234"])
      expect(read(text), text).toMatchObject({
        ok: false,
        why: 'unclear',
        expected: 'a number that can be read one way only',
      });
    for (const text of ['', 'much', '°C', 'EUR', '%'])
      expect(read(text), text).toMatchObject({ ok: false, why: 'other' });
    expect(read('1/0')).toMatchObject({ ok: false, why: 'unclear', expected: 'a finite number' });
  });

  it.each(Object.entries(READERS))('%s reads or refuses any text, in finite numbers', (_, read) => {
    const parts = fc.constantFrom(
      '1',
      '0',
      '.',
      ',',
      ' ',
      '-',
      '/',
      '½',
      'e9',
      '%',
      '°',
      'C',
      'F',
      'mS',
      '/cm',
      'ppm',
      'EUR',
      '€',
      '１',
    );
    fc.assert(
      fc.property(
        fc.oneof(
          fc.string({ unit: 'binary' }),
          fc.array(parts).map((all) => all.join('')),
        ),
        (text) => {
          const result = read(text);
          const numbers = result.ok ? numbersIn(result.value) : [];
          expect(numbers.filter((x) => !Number.isFinite(x))).toEqual([]);
          if (!result.ok)
            expect(Math.min(result.found.length, result.expected.length, result.fix.length)).toBeGreaterThan(0);
        },
      ),
      { numRuns: 300 },
    );
  });

  it('say which comma was read as a decimal comma, and where it is natural nothing', () => {
    expect(readPlainNumber('12,50')).toEqual({ ok: true, value: 12.5, comma: { written: '12,50', value: 12.5 } });
    expect(readPlainNumber('12,50', [], { decimalComma: true })).toEqual({ ok: true, value: 12.5, comma: null });
    expect(readPlainNumber('1,234', [], { decimalComma: true })).toEqual({ ok: true, value: 1.234, comma: null });
  });

  it('tell a number below zero from no number; only a temperature may be', () => {
    expect(readPlainNumber('-3')).toMatchObject({ ok: false, why: 'sign' });
    expect(readMoney('-3 EUR')).toMatchObject({ ok: false, why: 'sign' });
    expect(readTemperature('−5 °C')).toEqual({ ok: true, value: -5, comma: null });
    expect(readTemperature('-40 °F')).toEqual({ ok: true, value: -40, comma: null });
  });

  it('take a unit only where it is one of the quantity', () => {
    expect(readPlainNumber('40 mg/L', ['mg/L'])).toMatchObject({ ok: true, value: 40 });
    for (const [read, text] of [
      [readPlainNumber, '40 mg/L'],
      [readTemperature, '15 K'],
      [readTemperature, '15 °CF'],
      [readConductivity, '0.8 g/L'],
      [readConductivity, '0.8 S'],
      [readShare, '5 g'],
      [readMoney, '5 g'],
      [readMoney, 'EUR 5 EUR'],
      [readPenScale, '300'],
      [readPenScale, '5000'],
    ] as const)
      expect(read(text), text).toMatchObject({ ok: false, why: 'other' });
  });

  it('keep a conductivity as it is written until the scale is known', () => {
    expect(readConductivity('230 ppm')).toMatchObject({ value: { number: 230, written: '230', unit: 'ppm' } });
    expect(readConductivity('0,460 dS/m')).toMatchObject({ value: { number: 0.46, written: '0.460', unit: 'mS/cm' } });
    expect(readConductivity('1413')).toMatchObject({ value: { number: 1413, unit: null } });
    expect(inMilliSiemens({ number: 230, unit: 'ppm' }, 500)).toBe(0.46);
    expect(() => inMilliSiemens({ number: 230, unit: 'ppm' })).toThrow(RangeError);
  });

  it('keep the currency beside money, and know when it is another', () => {
    expect(readMoney('12,50 EUR')).toMatchObject({ value: { amount: 12.5, currency: 'EUR' } });
    expect(readMoney('$3')).toMatchObject({ value: { amount: 3, currency: '$' } });
    expect(readMoney('3')).toMatchObject({ value: { amount: 3, currency: null } });
    expect([otherCurrency('€', 'EUR'), otherCurrency('eur', 'EUR'), otherCurrency(null, 'EUR')]).toEqual([
      false,
      false,
      false,
    ]);
    expect([otherCurrency('USD', 'EUR'), otherCurrency('£', 'EUR'), otherCurrency('$', 'CAD')]).toEqual([
      true,
      true,
      false,
    ]);
    expect(otherCurrency('EUR', '')).toBe(false);
  });
});

const numbersIn = (value: unknown): number[] =>
  (typeof value === 'object' && value !== null ? Object.values(value) : [value]).filter((x) => typeof x === 'number');
