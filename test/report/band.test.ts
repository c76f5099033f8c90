import { describe, expect, it } from 'vitest';
import { lay, standing } from '../../src/report/band.js';
import type { Bar } from '../../src/report/sheet.js';
import { picture } from '../../src/report/text-bars.js';

const bar = (
  value: number,
  min: number | null,
  max: number | null,
  aim: number | null = null,
  low = value,
  high = value,
): Bar => ({
  name: 'K',
  value,
  low,
  high,
  min,
  aim,
  max,
});

describe('a value against its band', () => {
  it.each([
    [bar(19, 20, 60), 'low'],
    [bar(61, 20, 60), 'high'],
    [bar(20, 20, 60), ''],
    [bar(20 * (1 - 5e-7), 20, 60), ''],
    [bar(50, 20, 60, null, 50, 65), 'may be high'],
    [bar(30, 20, 60, null, 15, 30), 'may be low'],
    [bar(30, null, null), ''],
    [bar(0, null, 0), ''],
    [bar(0.1, null, 0), 'high'],
  ])('%o stands %s', (given, word) => {
    expect(standing(given)).toBe(word);
  });

  it('is laid from the least to the most', () => {
    expect(lay(bar(30, 20, 60, 40))).toMatchObject({ value: 0.25, aim: 0.5, floor: true, ceiling: true });
    expect(lay(bar(30, null, 60))).toMatchObject({ value: 0.5, floor: false, ceiling: true });
    expect(lay(bar(30, null, null))).toBeNull();
  });

  it('is drawn outside the brackets when it lies outside the band', () => {
    expect(picture(bar(10, 20, 60, 40))).toBe(' o [..........|..........]    ');
    expect(picture(bar(63, 20, 60, 40))).toBe('   [..........|..........]o   ');
    expect(picture(bar(40, 20, 60, 40))).toBe('   [..........o..........]    ');
    expect(picture(bar(40, 20, 60, null, 30, 50))).toBe('   [.....=====o=====.....]    ');
    expect(picture(bar(40, 20, null))).toMatch(/^ {3}\[\.+o\.+> {4}$/);
  });

  it('always takes the same room', () => {
    const widths = [
      bar(1, 2, 3),
      bar(4, 2, 3),
      bar(2.5, 2, 3),
      bar(2, null, 3),
      bar(2, 1, null),
      bar(2, null, null),
      bar(5, 0, 0),
      bar(5, 3, 3),
    ].map((b) => picture(b).length);
    expect(new Set(widths)).toEqual(new Set([30]));
  });
});
