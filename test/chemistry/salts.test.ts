import { describe, expect, it } from 'vitest';
import { formula, nutrientsPerGram, saltNamed, saltsOf } from '../../src/chemistry/index.js';
import { ionsPerGram } from '../../src/chemistry/ions.js';

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
    ['MgSO4', 'MgSO4·7H2O'],
    ['Potassium Nitrate (KNO3)', 'KNO3'],
    ['Potassium nitrate.', 'KNO3'],
    ['boron (boric acid)', 'H3BO3'],
    ['di-ammonium phosphate', '(NH4)2HPO4'],
    ['potassium phosphate, dibasic', 'K2HPO4'],
    ['ammonium phosphate monobasic', 'NH4H2PO4'],
    ['magnesium nitrate dihydrate', 'Mg(NO3)2·6H2O'],
    ['potassium nitrate solution', 'KNO3'],
    ['Fe-EDTA', 'FeC10H12N2O8Na'],
    ['EDTA iron', 'FeC10H12N2O8Na'],
    ['Iron EDTA (13.2 %)', 'FeC10H12N2O8Na'],
    ['Zn EDTA', 'ZnC10H12N2O8Na2'],
    ['manganese chelated with EDTA', 'MnC10H12N2O8Na2'],
    ['sodium ferric EDDHA', 'FeC18H16N2O6Na'],
    ['iron HEDTA', 'FeC10H15N2O7'],
    ['urea phosphate', 'CO(NH2)2·H3PO4'],
  ])('%s is %s', (name, formula) => {
    expect(saltNamed(name)?.formula).toBe(formula);
  });

  it.each([
    'kelp',
    'seaweed extract',
    '',
    '__proto__',
    'constructor',
    'potassium',
    'iron chelate',
    'zinc lignosulfonate (chelated)',
    'seaweed (potassium nitrate)',
    'iron and zinc EDTA',
    'EDTA',
    '()',
    '13 %',
  ])('%s is not a salt', (name) => {
    expect(saltNamed(name)).toBeUndefined();
  });

  it('knows what a salt brings', () => {
    expect([...saltNamed('ammonium nitrate')!.holds]).toEqual(['N', 'NO3-N', 'NH4-N']);
    expect([...saltNamed('boric acid')!.holds]).toEqual(['B']);
    expect(saltNamed('calcium nitrate')!.holds.has('NH4-N')).toBe(true);
  });

  it('counts the charge of an agent around its metal: HEDTA 3−, EDDHMA 4− with iron 3+', () => {
    expect(ionsPerGram(formula(saltNamed('iron HEDTA')!.formula)).alkalinity).toBe(0);
    // one sodium to one minus
    const eddhma = ionsPerGram(formula(saltNamed('iron EDDHMA')!.formula));
    expect(eddhma.Na).toBeGreaterThan(0);
    expect(eddhma.alkalinity).toBe(0);
  });

  it('urea phosphate is urea and phosphoric acid, by molar masses 17.7 % N and 44.9 % P2O5', () => {
    const mg = nutrientsPerGram(formula(saltNamed('urea phosphate')!.formula));
    // 2 · 14.007 and 30.974 / 0.43643 of 158.05 g/mol
    expect(mg['urea-N']).toBeCloseTo(177.2, 0);
    expect(mg.P / 0.43643).toBeCloseTo(449, 0);
  });

  it('takes a list apart that is printed with commas', () => {
    const formulas = (...names: string[]) => saltsOf(names).known.map((salt) => salt.formula);
    expect(formulas('Derived from: ammonium phosphate, potassium nitrate, urea, and Fe-EDTA.')).toEqual([
      'NH4H2PO4',
      'KNO3',
      'CO(NH2)2',
      'FeC10H12N2O8Na',
    ]);
    expect(formulas('potassium phosphate, dibasic', 'Potassium Nitrate (KNO3), technical grade')).toEqual([
      'K2HPO4',
      'KNO3',
    ]);
    expect(saltsOf(['urea and fish meal']).unknown).toEqual(['fish meal']);
    expect(saltsOf(['seaweed, fish and sand']).unknown).toEqual(['seaweed, fish and sand']);
  });

  it('sorts a list into what is understood and what is not', () => {
    const { known, unknown } = saltsOf(['urea', 'fish hydrolysate', 'potassium chloride']);
    expect(known.map((salt) => salt.name)).toEqual(['urea', 'potassium chloride']);
    expect(unknown).toEqual(['fish hydrolysate']);
  });
});
