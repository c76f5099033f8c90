import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { ATOMIC_WEIGHTS, elementPerOxide, massShare, OXIDES, oxidePerElement } from '../../src/chemistry/index.js';

describe('oxide factors', () => {
  // Computed apart from this project from the IUPAC/CIAAW 2021 atomic weights; label handbooks print the same to four figures.
  it.each([
    ['P2O5', 0.43643],
    ['K2O', 0.83015],
    ['CaO', 0.7147],
    ['MgO', 0.60304],
    ['SO3', 0.40046],
    ['Na2O', 0.74186],
    ['SiO2', 0.46744],
  ])('%s', (oxide, factor) => {
    expect(elementPerOxide(oxide)).toBeCloseTo(factor, 5);
  });

  it.each([
    ['N', 'NO3', 0.2259],
    ['N', 'NH4', 0.77648],
    ['S', 'SO4', 0.33376],
    ['Ca', 'CaCO3', 0.40044],
  ])('%s in %s', (element, compound, factor) => {
    expect(massShare(element, compound)).toBeCloseTo(factor, 4);
  });

  it('goes there and back without loss', () => {
    fc.assert(
      fc.property(fc.constantFrom(...OXIDES.keys()), fc.double({ min: 0, max: 100, noNaN: true }), (oxide, percent) => {
        expect(percent * elementPerOxide(oxide) * oxidePerElement(oxide)).toBeCloseTo(percent, 10);
      }),
    );
  });

  it('refuses an oxide that is not in the table', () => {
    expect(() => elementPerOxide('K3O')).toThrow(RangeError);
  });
});

describe('atomic weights', () => {
  // IUPAC/CIAAW 2021, abridged (Prohaska et al. 2022, Pure Appl. Chem. 94:573), from memory.
  it.each([
    ['H', 1.008],
    ['N', 14.007],
    ['O', 15.999],
    ['P', 30.974],
    ['S', 32.06],
    ['K', 39.098],
    ['Ca', 40.078],
    ['Mg', 24.305],
    ['Mo', 95.95],
    ['Zn', 65.38],
    ['Ni', 58.693],
  ] as const)('%s', (element, weight) => {
    expect(ATOMIC_WEIGHTS.get(element)).toBe(weight);
  });
});
