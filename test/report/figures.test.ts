import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { amount, figure, money, percent } from '../../src/report/figures.js';

describe('figures', () => {
  it('print a mix that sits on its limit like the limit', () => {
    // A calcium of 12.75 mg/L, least 12.75, once read "12.7, least 12.8".
    expect(figure(12.749999999999963)).toBe('12.8');
    expect(figure(12.75)).toBe('12.8');
    fc.assert(
      fc.property(
        fc.integer({ min: 1000, max: 9999 }),
        fc.integer({ min: -6, max: 3 }),
        fc.integer({ min: -1000, max: 1000 }),
        (digits, power, dust) => {
          const limit = digits * 10 ** power;
          expect(figure(limit * (1 + dust * 1e-15))).toBe(figure(limit));
        },
      ),
    );
  });

  it('keep three digits and every whole digit', () => {
    expect([figure(0), figure(1234.4), figure(0.0012345), figure(-2.5)]).toEqual(['0', '1234', '0.00123', '-2.5']);
    expect(percent(0.125)).toBe('12.5 %');
    expect([money(0.004123, 'EUR'), money(1e-6, 'EUR'), money(2, '')]).toEqual(['0.00412 EUR', '<0.00001 EUR', '2']);
    expect([amount(0.0004, 'g'), amount(1e-6, 'g'), amount(0.004, 'mL')]).toEqual(['0.4 mg', '<0.01 mg', '0.004 mL']);
  });
});
