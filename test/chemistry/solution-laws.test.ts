/** Laws that hold for any solution: finite figures, electroneutrality, mass balance, dilution, continuity. */
import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type SolutionIons, solutionChemistry } from '../../src/chemistry/index.js';

const NAMES = ['K', 'Ca', 'Mg', 'Na', 'NH4', 'NO3', 'P', 'SO4', 'Cl'] as const;
const amounts = (max: number) =>
  fc.record(Object.fromEntries(NAMES.map((name) => [name, fc.double({ min: 0, max, noNaN: true })])));
/** Salts of strong ions, so that dilution is of salts and not of an acid that dissociates more. */
const salts = fc
  .array(
    fc.tuple(
      fc.constantFrom('KNO3', 'CaN', 'MgS', 'KP', 'NaCl', 'NH4S'),
      fc.double({ min: 0.01, max: 3, noNaN: true }),
    ),
    {
      minLength: 1,
      maxLength: 5,
    },
  )
  .map((parts) => {
    const ions: Record<string, number> = {};
    for (const [salt, mmol] of parts) {
      for (const [ion, n] of Object.entries(SALTS[salt]!)) ions[ion] = (ions[ion] ?? 0) + n * mmol;
    }
    return ions as SolutionIons;
  });
const SALTS: Record<string, Record<string, number>> = {
  KNO3: { K: 1, NO3: 1 },
  CaN: { Ca: 1, NO3: 2 },
  MgS: { Mg: 1, SO4: 1 },
  KP: { K: 1, P: 1 },
  NaCl: { Na: 1, Cl: 1 },
  NH4S: { NH4: 2, SO4: 1 },
};

const scaled = (ions: SolutionIons, factor: number): SolutionIons =>
  Object.fromEntries(Object.entries(ions).map(([ion, mmol]) => [ion, mmol * factor]));

function figures(ions: SolutionIons, options = {}): number[] {
  const { ec25, ec, pH, ionicStrength, saturation, species, titrant, chargeError } = solutionChemistry(ions, options);
  const indices = Object.values(saturation).filter((index) => index !== null);
  return [ec25, ec, pH, ionicStrength, ...indices, ...Object.values(species), titrant, chargeError];
}

it('every figure is finite for any amounts, temperature, air and pH', () => {
  fc.assert(
    fc.property(
      fc.oneof(amounts(1), amounts(30), amounts(5000), amounts(1e9)),
      fc.double({ min: -2000, max: 2000, noNaN: true }),
      fc.double({ min: -10, max: 60, noNaN: true }),
      fc.boolean(),
      fc.option(fc.double({ min: -1, max: 15, noNaN: true }), { nil: undefined }),
      (ions, HCO3, temperatureC, air, pH) => {
        const all = figures({ ...ions, HCO3 }, { temperatureC, air, ...(pH === undefined ? {} : { pH }) });
        expect(all.every(Number.isFinite)).toBe(true);
      },
    ),
    { numRuns: 400 },
  );
});

it.each([
  [{}],
  [{ K: Number.NaN, Ca: -5, Cl: Number.POSITIVE_INFINITY, HCO3: Number.NaN }],
  [{ K: 1e-12 }],
  [{ Cl: 1e6 }],
  [{ HCO3: -1e6 }],
])('what is no solution at all still gets finite figures: %j', (ions) => {
  for (const options of [{}, { air: false }, { pH: 7 }, { temperatureC: Number.NaN }, { pH: Number.NaN }]) {
    expect(figures(ions, options).every(Number.isFinite)).toBe(true);
  }
});

const CHARGES: Record<string, number> = { H: 1, OH: -1, K: 1, Ca: 2, Mg: 2, Na: 1, NH4: 1, NO3: -1, Cl: -1, SO4: -2 };

describe('what a solution holds', () => {
  it('nothing is lost: calcium, sulfur and phosphorus add up over their species', () => {
    fc.assert(
      fc.property(salts, fc.boolean(), (ions, air) => {
        const { species } = solutionChemistry(ions, { air });
        const sum = (holds: RegExp): number =>
          Object.entries(species).reduce((total, [id, mmol]) => total + (holds.test(id) ? mmol : 0), 0);
        expect(sum(/^Ca/)).toBeCloseTo(ions.Ca ?? 0, 6);
        expect(sum(/PO4/)).toBeCloseTo(ions.P ?? 0, 6);
        expect(sum(/SO4/) + (species['Mg(SO4)2'] ?? 0)).toBeCloseTo(ions.SO4 ?? 0, 6);
      }),
      { numRuns: 100 },
    );
  });

  // nearly all calcium or magnesium paired with phosphate: the slowest that 20,000 random solutions brought up
  it.each([
    [
      { Ca: 1374, P: 1367, HCO3: 0.83 },
      { air: false, pH: 11.46 },
    ],
    [{ K: 1431, Mg: 2299, Na: 2006, NO3: 1167, P: 2336 }, { air: false }],
    [{ K: 12.7, Ca: 27.2, Mg: 14.8, Na: 42.6, NH4: 45.4, NO3: 8, P: 41 }, { air: false }],
  ])('also where the search is slow: %j', (ions, options) => {
    const { species } = solutionChemistry(ions, options);
    const phosphorus = Object.entries(species).reduce((sum, [id, mmol]) => sum + (/PO4/.test(id) ? mmol : 0), 0);
    expect(Math.abs(phosphorus / ions.P - 1)).toBeLessThan(1e-6);
  });

  it('without ligands that pair, the charges of the free ions balance', () => {
    const { species } = solutionChemistry({ K: 3, Na: 1, NO3: 3, Cl: 1 }, { air: false });
    const net = Object.entries(species).reduce((sum, [id, mmol]) => sum + (CHARGES[id] ?? 0) * mmol, 0);
    expect(Math.abs(net)).toBeLessThan(1e-6);
  });
});

describe('dilution', () => {
  it('a salt solution conducts less when diluted, and more per salt', () => {
    fc.assert(
      fc.property(salts, fc.double({ min: 1.01, max: 20, noNaN: true }), (ions, times) => {
        const strong = solutionChemistry(ions, { air: false }).ec25;
        const weak = solutionChemistry(scaled(ions, 1 / times), { air: false }).ec25;
        expect(weak).toBeLessThan(strong);
        expect(weak * times).toBeGreaterThan(strong);
      }),
      { numRuns: 200 },
    );
  });

  it('a hair more of everything changes every figure by a hair', () => {
    fc.assert(
      fc.property(salts, fc.boolean(), (ions, air) => {
        const here = solutionChemistry(ions, { air });
        const there = solutionChemistry(scaled(ions, 1 + 1e-6), { air });
        expect(Math.abs(there.ec25 / here.ec25 - 1)).toBeLessThan(1e-5);
        expect(Math.abs(there.pH - here.pH)).toBeLessThan(1e-3);
        for (const mineral of ['gypsum', 'brushite', 'calcite', 'struvite'] as const) {
          const [a, b] = [here.saturation[mineral], there.saturation[mineral]];
          expect(a === null).toBe(b === null);
          expect(Math.abs((a ?? 0) - (b ?? 0))).toBeLessThan(1e-3);
        }
      }),
      { numRuns: 200 },
    );
  });
});

describe('pH', () => {
  it('a fixed pH is kept; the titrant that reaches it, added as ions, gives that pH', () => {
    fc.assert(
      fc.property(salts, fc.double({ min: 4, max: 9, noNaN: true }), (ions, pH) => {
        const fixed = solutionChemistry(ions, { pH });
        expect(fixed.pH).toBeCloseTo(pH, 9);
        const { titrant } = fixed;
        const dosed =
          titrant > 0 ? { ...ions, K: (ions.K ?? 0) + titrant } : { ...ions, NO3: (ions.NO3 ?? 0) - titrant };
        expect(Math.abs(solutionChemistry(dosed).pH - pH)).toBeLessThan(0.02);
      }),
      { numRuns: 100 },
    );
  });

  it('an imbalance of the analysis is reported and leaves the pH of the alkalinity alone', () => {
    const tap = { Ca: 1.5, Mg: 0.41, Na: 1.09, Cl: 0.99, SO4: 0.31, HCO3: 2.95 };
    const off = solutionChemistry({ ...tap, Na: tap.Na + 0.3 }, { air: false });
    const balanced = solutionChemistry({ ...tap }, { air: false });
    expect(off.chargeError - balanced.chargeError).toBeCloseTo(0.3, 9);
    expect(Math.abs(off.pH - balanced.pH)).toBeLessThan(0.02);
    expect(Math.abs(balanced.pH - 7.6)).toBeLessThan(0.1);
  });
});
