import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  decimalsOf,
  formatDigits,
  formatFixed,
  formatNumber,
  formatUpTo,
  roundDecimals,
  roundDigits,
} from '../../src/units/index.js';

describe('formatNumber', () => {
  it.each([
    [0, '0'],
    [-0, '0'],
    [1e-7, '0.0000001'],
    [123456, '123456'],
    [0.99995, '1'],
    [9.9996, '10'],
    [1 / 3, '0.3333'],
    [999.95, '1000'],
    [1e21, '1000000000000000000000'],
    [-2.5, '-2.5'],
  ])('%s', (value, text) => {
    expect(formatNumber(value)).toBe(text);
  });

  it('prints what was asked for', () => {
    expect(formatNumber(1.23456, 3)).toBe('1.23');
    expect([formatDigits(0.3, 3), formatDigits(9.996, 3), formatDigits(1234.5, 3)]).toEqual(['0.300', '10.0', '1235']);
    expect([formatFixed(7, 1), formatFixed(-0.001, 2), formatFixed(0.5, 0)]).toEqual(['7.0', '0.00', '1']);
    expect(formatUpTo(1.005, 1)).toBe('1');
    expect(formatUpTo(-0.001, 2)).toBe('0');
  });

  it('takes what adding and multiplying leave for nothing', () => {
    expect([formatNumber(3e-14), formatNumber(-3e-14), formatDigits(1e-13, 3)]).toEqual(['0', '0', '0']);
    expect(formatNumber(2e-12)).toBe('0.000000000002');
  });

  it('counts the decimals that a number is written with', () => {
    expect([4.8, 47, 0.00079, 0.1 + 0.2, -1.25].map((x) => decimalsOf(x))).toEqual([1, 0, 5, 1, 2]);
  });

  it('rounds numbers as it prints them', () => {
    expect([roundDigits(0.1 + 0.2, 12), roundDigits(1234.5, 2), roundDecimals(0.1 + 0.2, 9)]).toEqual([0.3, 1200, 0.3]);
  });

  it.each([formatNumber, formatDigits, formatFixed, formatUpTo])('%o refuses what is no number', (format) => {
    for (const x of [Number.NaN, Number.POSITIVE_INFINITY, Number.NEGATIVE_INFINITY])
      expect(() => format(x, 2)).toThrow(RangeError);
  });

  it('never shows an exponent and stays within half a unit of the last digit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }), (x) => {
        fc.pre(x === 0 || Math.abs(x) >= 1e-12);
        const text = formatNumber(x);
        expect(text).toMatch(/^-?\d+(\.\d*[1-9])?$/);
        // 5.001e-4: half a unit in the fourth digit of the least favourable number, 1.000, and its own rounding.
        expect(Math.abs(Number(text) - x)).toBeLessThanOrEqual(5.001e-4 * Math.abs(x));
      }),
    );
  });
});
