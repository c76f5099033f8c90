import { describe, expect, it } from 'vitest';
import { atToolPrecision } from '../../src/report/at-tool.js';
import { volumeText } from '../../src/report/volume.js';

describe('volumes', () => {
  // NIST Handbook 44, appendix C: a US gallon is 231 cubic inches of 16.387064 mL; UK Weights and Measures Act 1985: 4.54609 L (both from memory)
  const us = (231 * 16.387064) / 1000;

  it('in whole quarters of a gallon are told in gallons', () => {
    expect(volumeText(us)).toBe('1 US gal (3.79 L)');
    expect(volumeText(2.5 * us)).toBe('2.5 US gal (9.46 L)');
    expect(volumeText(us / 4)).toBe('0.25 US gal (946 mL)');
    expect(volumeText(4.54609)).toBe('1 imperial gal (4.55 L)');
  });

  it('are in litres otherwise, and below one in millilitres', () => {
    expect([4, 0.5, 3.785, 10, 18.9].map(volumeText)).toEqual(['4 L', '500 mL', '3.79 L', '10 L', '18.9 L']);
  });
});

describe('an amount at the precision of a tool', () => {
  it('has three digits, but none that the tool does not tell', () => {
    expect(atToolPrecision(1.6379, 'g', 0.01)).toBe('1.64 g');
    expect(atToolPrecision(1.6379, 'g', 0.1)).toBe('1.6 g');
    expect(atToolPrecision(1.6379, 'g', 1)).toBe('2 g');
    expect(atToolPrecision(123.456, 'g', 0.01)).toBe('123 g');
    expect(atToolPrecision(0.196, 'g', 0.01)).toBe('0.20 g');
  });

  it('comes in whole steps, also of marks that are no power of ten', () => {
    expect(atToolPrecision(2.31, 'mL', 0.2)).toBe('2.4 mL');
    expect(atToolPrecision(0.13, 'mL', 0.05)).toBe('0.15 mL');
  });

  it('is said to be less than a step where it is, and as it is where no tool is known', () => {
    expect(atToolPrecision(0.004, 'g', 0.01)).toBe('<0.01 g');
    expect(atToolPrecision(0.0838, 'g', null)).toBe('0.0838 g');
    expect(atToolPrecision(0, 'g', 0.01)).toBe('0 g');
  });
});
