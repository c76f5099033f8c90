import { describe, expect, it } from 'vitest';
import { formula, type Nutrient, nutrientsPerGram } from '../../src/chemistry/index.js';

/** mg/L of a nutrient in a recipe of salts in mg/L. */
function mgPerLitre(recipe: Record<string, number>, nutrient: Nutrient): number {
  return Object.entries(recipe).reduce(
    (sum, [salt, mg]) => sum + (mg / 1000) * nutrientsPerGram(formula(salt))[nutrient],
    0,
  );
}

/** A recipe given in mmol/L, as mg/L. */
const millimolar = (recipe: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(recipe).map(([salt, mmol]) => [salt, mmol * formula(salt).molarMass]));

describe('Hoagland & Arnon 1950 (Calif. Agr. Expt. Sta. Circ. 347), solution 1, by quotation', () => {
  const macros = millimolar({ KNO3: 5, 'Ca(NO3)2': 5, KH2PO4: 1, MgSO4: 2 });
  // Printed without decimals (Mg with one): half a unit of the last digit.
  it.each([
    ['N', 210, 0.5],
    ['P', 31, 0.5],
    ['K', 235, 0.5],
    ['Ca', 200, 0.5],
    ['Mg', 48.6, 0.05],
    ['S', 64, 0.5],
  ] as const)('%s', (nutrient, printed, half) => {
    expect(Math.abs(mgPerLitre(macros, nutrient) - printed)).toBeLessThanOrEqual(half);
  });

  it('holds nitrate only', () => {
    expect(mgPerLitre(macros, 'NO3-N')).toBeCloseTo(mgPerLitre(macros, 'N'), 9);
    expect(mgPerLitre(macros, 'NH4-N')).toBe(0);
  });

  const micros = { H3BO3: 2.86, 'MnCl2.4H2O': 1.81, 'ZnSO4.7H2O': 0.22, 'CuSO4.5H2O': 0.08, 'H2MoO4.H2O': 0.02 };
  // Printed to one significant digit: half a unit of it.
  it.each([
    ['B', 0.5, 0.05],
    ['Mn', 0.5, 0.05],
    ['Zn', 0.05, 0.005],
    ['Cu', 0.02, 0.005],
    ['Mo', 0.01, 0.005],
  ] as const)('%s', (nutrient, printed, half) => {
    expect(Math.abs(mgPerLitre(micros, nutrient) - printed)).toBeLessThanOrEqual(half);
  });
});

describe('Steiner 1961/1984, from memory', () => {
  // NO3 12, H2PO4 1, SO4 7; K 7, Ca 9, Mg 4 meq/L.
  const recipe = millimolar({ KH2PO4: 1, K2SO4: 3, 'Ca(NO3)2': 4.5, 'Mg(NO3)2': 1.5, MgSO4: 0.5 });

  it.each([
    ['N', 168],
    ['P', 31],
    ['K', 273.7],
    ['Ca', 180.4],
    ['Mg', 48.6],
    ['S', 112.2],
  ] as const)('%s', (nutrient, printed) => {
    // Half a unit of the last printed digit (N and P have none). The salts above are our own way to these ions.
    expect(Math.abs(mgPerLitre(recipe, nutrient) - printed)).toBeLessThanOrEqual(
      Number.isInteger(printed) ? 0.5 : 0.051,
    );
  });
});

describe('Knudson C 1946 (orchid seed medium), from memory', () => {
  const recipe = {
    'Ca(NO3)2.4H2O': 1000,
    '(NH4)2SO4': 500,
    'MgSO4.7H2O': 250,
    KH2PO4: 250,
    'FeSO4.7H2O': 25,
    'MnSO4.4H2O': 7.5,
  };

  it.each([
    ['N', 224.6],
    ['NH4-N', 106],
    ['P', 56.9],
    ['K', 71.8],
    ['Ca', 169.7],
    ['Mg', 24.7],
  ] as const)('%s', (nutrient, printed) => {
    expect(Math.abs(mgPerLitre(recipe, nutrient) - printed)).toBeLessThanOrEqual(0.051);
  });

  it('implies 47 % of its nitrogen as ammonium', () => {
    expect(mgPerLitre(recipe, 'NH4-N') / mgPerLitre(recipe, 'N')).toBeCloseTo(106 / 224.6, 3);
  });
});

describe('Vacin & Went 1949 (orchid seed medium), from memory', () => {
  const recipe = { 'Ca3(PO4)2': 200, KNO3: 525, '(NH4)2SO4': 500, 'MgSO4.7H2O': 250, KH2PO4: 250 };

  it.each([
    ['N', 178.7],
    ['P', 96.8],
    ['K', 274.9],
    ['Ca', 77.5],
    ['Mg', 24.7],
  ] as const)('%s', (nutrient, printed) => {
    expect(Math.abs(mgPerLitre(recipe, nutrient) - printed)).toBeLessThanOrEqual(0.051);
  });

  it('implies 59 % of its nitrogen as ammonium', () => {
    expect(mgPerLitre(recipe, 'NH4-N') / mgPerLitre(recipe, 'N')).toBeCloseTo(106 / 178.7, 3);
  });
});
