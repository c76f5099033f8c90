import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formatFixed, formatNumber } from '../../src/units/index.js';

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
    expect(formatFixed(1.005, 1)).toBe('1');
    expect(formatFixed(-0.001, 2)).toBe('0');
  });

  it('refuses what is no number', () => {
    expect(() => formatNumber(Number.NaN)).toThrow(RangeError);
    expect(() => formatFixed(Number.POSITIVE_INFINITY, 2)).toThrow(RangeError);
  });

  it('never shows an exponent and stays within half a unit of the last digit', () => {
    fc.assert(
      fc.property(fc.double({ noNaN: true, noDefaultInfinity: true, min: -1e15, max: 1e15 }), (x) => {
        fc.pre(x === 0 || Math.abs(x) > 1e-90);
        const text = formatNumber(x);
        expect(text).toMatch(/^-?\d+(\.\d*[1-9])?$/);
        // 5.001e-4: half a unit in the fourth digit of the least favourable number, 1.000, and its own rounding.
        expect(Math.abs(Number(text) - x)).toBeLessThanOrEqual(5.001e-4 * Math.abs(x));
      }),
    );
  });
});
