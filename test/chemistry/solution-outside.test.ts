/** Solution chemistry against figures from outside that no coefficient was fitted to. */
import { expect, test } from 'vitest';
import { solutionChemistry } from '../../src/chemistry/index.js';

test('pure water without CO2: 0.055 µS/cm and pH 7.00 at 25 °C (Standard Methods 2510, Light 1984; from memory)', () => {
  const { ec25, pH } = solutionChemistry({}, { air: false });
  expect(ec25).toBeCloseTo(0.055, 3);
  expect(pH).toBeCloseTo(7, 2);
});

test.each([
  [0, 14.947],
  [10, 14.535],
  [20, 14.167],
  [30, 13.833],
  [40, 13.535],
])('water at %d °C: pKw %d (Harned & Owen, from memory), within 0.02', (temperatureC, pKw) => {
  expect(Math.abs(2 * solutionChemistry({}, { air: false, temperatureC }).pH - pKw)).toBeLessThanOrEqual(0.02);
});

test('pure water in equilibrium with air: pH 5.6 (textbook figure; Stumm & Morgan, from memory)', () => {
  expect(solutionChemistry({}).pH).toBeCloseTo(5.6, 1);
});

// 0.025 mol/kg each of KH2PO4 and Na2HPO4 is 24.9 mmol/L; NBS/NIST standard pH (Bates, Determination of pH; from memory)
test.each([
  [10, 6.923],
  [20, 6.881],
  [25, 6.865],
  [30, 6.853],
])('phosphate buffer at %d °C: pH %d within 0.03', (temperatureC, standard) => {
  const { pH } = solutionChemistry({ K: 24.9, Na: 49.8, P: 49.8 }, { air: false, temperatureC });
  expect(Math.abs(pH - standard)).toBeLessThanOrEqual(0.03);
});

test('saturated gypsum, 15.2 mmol/L: 2.2 dS/m (USDA Handbook 60, from memory) within 5 %, index 0 within 0.05', () => {
  const { ec25, saturation } = solutionChemistry({ Ca: 15.2, SO4: 15.2 });
  expect(Math.abs(ec25 / 2200 - 1)).toBeLessThanOrEqual(0.05);
  expect(Math.abs(saturation.gypsum ?? 9)).toBeLessThanOrEqual(0.05);
});

// The scales of two meter manuals at 1413 µS/cm: 702 ppm NaCl, 745 ppm KCl, 1000 ppm "442". The scales are rounded to 1 ppm and their salts
// taken as pure, so 1 % for a single salt; the 442 mixture is three salts whose carbonate loses or takes up CO2: 2 %.
test.each([
  ['702 mg/L NaCl', { Na: 702 / 58.443, Cl: 702 / 58.443 }, 0.01],
  ['745 mg/L KCl', { K: 745 / 74.551, Cl: 745 / 74.551 }, 0.01],
  [
    '400 mg/L Na2SO4 + 400 mg/L NaHCO3 + 200 mg/L NaCl',
    {
      Na: (2 * 400) / 142.04 + 400 / 84.007 + 200 / 58.443,
      SO4: 400 / 142.04,
      Cl: 200 / 58.443,
      HCO3: 400 / 84.007,
    },
    0.02,
  ],
] as const)('%s conducts 1413 µS/cm', (_, ions, limit) => {
  expect(Math.abs(solutionChemistry(ions, { air: false }).ec25 / 1413 - 1)).toBeLessThanOrEqual(limit);
});

test('0.1 mol/L HCl: 39.1 mS/cm (CRC Handbook, Λ 391.1; from memory) within 1 %, pH 1.08 to 1.10', () => {
  const { ec25, pH } = solutionChemistry({ HCO3: -100, Cl: 100 }, { air: false });
  expect(Math.abs(ec25 / 39_110 - 1)).toBeLessThanOrEqual(0.01);
  expect(pH).toBeGreaterThan(1.07);
  expect(pH).toBeLessThan(1.11);
});
