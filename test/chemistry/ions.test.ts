import { describe, expect, it } from 'vitest';
import { formula, ionsFromNutrients, ionsPerGram, nutrientsPerGram } from '../../src/chemistry/index.js';

/** Alkalinity of one mole, eq. */
function alkalinity(text: string): number {
  return (ionsPerGram(formula(text)).alkalinity * formula(text).molarMass) / 1000;
}

describe('alkalinity of substances by charge balance', () => {
  // Neutral, acid and basic salts as in any textbook of water chemistry; zero level H2PO4−, H2CO3, H4SiO4.
  it.each([
    ['KNO3', 0],
    ['5Ca(NO3)2.NH4NO3.10H2O', 0],
    ['KH2PO4', 0],
    ['NH4H2PO4', 0],
    ['MgSO4.7H2O', 0],
    ['MnSO4.H2O', 0],
    ['CuCl2.2H2O', 0],
    ['CO(NH2)2', 0],
    ['H3BO3', 0],
    ['Na2MoO4.2H2O', 0],
    ['FeC10H12N2O8Na', 0],
    ['FeC14H18N3O10Na2', 0],
    ['FeC18H16N2O6Na', 0],
    ['ZnC10H12N2O8Na2', 0],
    ['CaC10H12N2O8Na2', 0],
    ['C6H12O6', 0],
    ['K2HPO4', 1],
    ['(NH4)2HPO4', 1],
    ['KOH', 1],
    ['KHCO3', 1],
    ['K2CO3', 2],
    ['CaCO3', 2],
    ['K2SiO3', 2],
    ['Ca3(PO4)2', 4],
    ['H3PO4', -1],
    ['HNO3', -1],
    ['HCl', -1],
    ['H2SO4', -2],
    ['CH3COOH', -1],
    ['C6H8O7', -2],
    ['C6H8O7.H2O', -2],
    ['K3C6H5O7.H2O', 1],
    ['(NH4)6Mo7O24.4H2O', -8],
  ])('%s: %s eq/mol', (text, expected) => {
    expect(alkalinity(text)).toBeCloseTo(expected, 9);
  });
});

describe('ions', () => {
  it('one mmol of the double salt is 5 Ca, 1 NH4, 11 NO3', () => {
    const perGram = ionsPerGram(formula('5Ca(NO3)2.NH4NO3.10H2O'));
    const mmol = formula('5Ca(NO3)2.NH4NO3.10H2O').molarMass / 1000;
    expect(perGram.Ca * mmol).toBeCloseTo(5, 9);
    expect(perGram.NH4 * mmol).toBeCloseTo(1, 9);
    expect(perGram.NO3 * mmol).toBeCloseTo(11, 9);
  });

  it('come out the same by formula and by mg of nutrients, where there are no trace metals', () => {
    for (const text of ['KNO3', 'K2HPO4', 'MgSO4.7H2O', 'NaCl', '(NH4)2SO4', 'HNO3', 'KOH']) {
      const direct = ionsPerGram(formula(text));
      const byNutrients = ionsFromNutrients(nutrientsPerGram(formula(text)));
      for (const [ion, mmol] of Object.entries(direct)) {
        expect(byNutrients[ion as keyof typeof direct], `${ion} in ${text}`).toBeCloseTo(mmol, 9);
      }
    }
  });
});
