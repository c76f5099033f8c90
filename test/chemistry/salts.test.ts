import { describe, expect, it } from 'vitest';
import { saltNamed, saltsOf } from '../../src/chemistry/index.js';

describe('names under "derived from"', () => {
  it.each([
    ['potassium nitrate', 'KNO3'],
    ['Potassium Nitrate', 'KNO3'],
    ['calcium nitrate', 'Ca(NO3)2·4H2O'],
    ['monopotassium phosphate', 'KH2PO4'],
    ['mono-potassium phosphate', 'KH2PO4'],
    ['magnesium sulphate', 'MgSO4·7H2O'],
    ['Epsom salt', 'MgSO4·7H2O'],
    ['urea', 'CO(NH2)2'],
    ['ammonium molybdate', '(NH4)6Mo7O24·4H2O'],
    ['iron EDTA', 'FeC10H12N2O8Na'],
    ['Iron (EDTA)', 'FeC10H12N2O8Na'],
    ['chelated iron (DTPA)', 'FeC14H18N3O10Na2'],
    ['iron chelate (EDTA)', 'FeC10H12N2O8Na'],
    ['iron(II) sulfate', 'FeSO4·7H2O'],
    ['boric acid', 'H3BO3'],
    ['muriate of potash', 'KCl'],
    ['KNO3', 'KNO3'],
    ['Ca(NO3)2.4H2O', 'Ca(NO3)2·4H2O'],
  ])('%s is %s', (name, formula) => {
    expect(saltNamed(name)?.formula).toBe(formula);
  });

  it.each(['kelp', 'seaweed extract', '', '__proto__', 'constructor', 'potassium'])('%s is not a salt', (name) => {
    expect(saltNamed(name)).toBeUndefined();
  });

  it('knows what a salt brings', () => {
    expect([...saltNamed('ammonium nitrate')!.holds]).toEqual(['N', 'NO3-N', 'NH4-N']);
    expect([...saltNamed('boric acid')!.holds]).toEqual(['B']);
    expect(saltNamed('calcium nitrate')!.holds.has('NH4-N')).toBe(true);
  });

  it('sorts a list into what is understood and what is not', () => {
    const { known, unknown } = saltsOf(['urea', 'fish hydrolysate', 'potassium chloride']);
    expect(known.map((salt) => salt.name)).toEqual(['urea', 'potassium chloride']);
    expect(unknown).toEqual(['fish hydrolysate']);
  });
});
