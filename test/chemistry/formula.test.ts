import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { formula, NITROGEN_FORMS, NUTRIENTS, nutrientsPerGram, parseFormula } from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/reference.js';

/** Moles of N by form: nitrate, ammonium, urea, other. */
const forms = (text: string): number[] => NITROGEN_FORMS.map((form) => formula(text).nitrogen[form]);

describe('salts against a table computed apart from this project', () => {
  const rows = referenceRows('salt_composition.csv');

  it('has all 27 salts', () => expect(rows).toHaveLength(27));

  it.each(rows.map((row) => [row.get('salt')!, row] as const))('%s', (salt, row) => {
    const own = formula(salt === 'urea' ? 'CO(NH2)2' : salt);
    const mg = nutrientsPerGram(own);
    // The table is printed to 0.001 g/mol and 0.0001 %: half a unit of that.
    expect(Math.abs(own.molarMass - Number(row.get('molar_mass')))).toBeLessThanOrEqual(0.00051);
    const cells = [...row].filter(([column, cell]) => column.startsWith('pct_') && cell !== '');
    expect(cells.length).toBeGreaterThan(0);
    for (const [column, cell] of cells) {
      const nutrient = NUTRIENTS.find((n) => `pct_${n}` === column);
      expect(nutrient, column).toBeDefined();
      expect(Math.abs(mg[nutrient!] / 10 - Number(cell)), column).toBeLessThanOrEqual(0.0000501);
    }
  });
});

describe('forms of nitrogen', () => {
  it.each([
    ['KNO3', [1, 0, 0, 0]],
    ['NH4NO3', [1, 1, 0, 0]],
    ['(NH4)2SO4', [0, 2, 0, 0]],
    ['NH4H2PO4', [0, 1, 0, 0]],
    ['NH4HCO3', [0, 1, 0, 0]],
    ['NH3', [0, 1, 0, 0]],
    ['5Ca(NO3)2.NH4NO3.10H2O', [11, 1, 0, 0]],
    ['CO(NH2)2', [0, 0, 2, 0]],
    ['(NH2)2CO', [0, 0, 2, 0]],
    ['CH4N2O', [0, 0, 2, 0]],
    ['CO(NH2)2·HNO3', [1, 0, 2, 0]],
    ['(NH4)6Mo7O24·4H2O', [0, 6, 0, 0]],
    ['FeC10H12N2O8Na', [0, 0, 0, 2]],
    ['C2H5NO2', [0, 0, 0, 1]],
    ['C3H7NO3', [0, 0, 0, 1]],
    ['KNO2', [0, 0, 0, 1]],
  ])('%s', (text, expected) => {
    expect(forms(text)).toEqual(expected);
  });
});

describe('ways of writing', () => {
  it.each([
    ['Ca(NO3)2·4H2O', 'Ca(NO3)2.4H2O'],
    ['Ca(NO3)2*4H2O', 'Ca(NO3)2.4H2O'],
    ['Ca(NO₃)₂ · 4 H₂O', 'Ca(NO3)2.4H2O'],
    ['Ca[NO3]2•4H2O', 'Ca(NO3)2.4H2O'],
    ['CaSO4·1/2H2O', 'CaSO4.0.5H2O'],
    [' MgSO4 . 7H2O ', 'MgSO4.7H2O'],
  ])('%s is %s', (a, b) => {
    expect(formula(a).molarMass).toBeCloseTo(formula(b).molarMass, 9);
    expect([...formula(a).atoms]).toEqual([...formula(b).atoms]);
  });

  it.each([
    ['', /a formula/],
    ['kno3', /character 1.*Mind the capitals: K/],
    ['CACl2', /"A" at character 2/],
    ['Xx2', /"Xx" at character 1/],
    ['K+', /"\+" at character 2.*Leave charges out/],
    ['Ca(NO3', /"\(" at character 3.*Close the bracket/],
    ['Ca)NO3', /"\)" at character 3/],
    ['K()', /empty bracket at character 2/],
    ['K0', /count "0" at character 2/],
    ['K99999', /from 1 to 9999/],
    ['MgSO4.', /dot at the end/],
    ['MgSO4..7H2O', /empty part/],
    ['MgSO4.0H2O', /above zero/],
    ['MgSO4.1/0H2O', /above zero/],
    ['MgSO4 7H2O', /dot/],
    ['7', /empty part/],
    [`${'('.repeat(20)}K${')'.repeat(20)}`, /levels/],
    ['K'.repeat(200), /at most 120/],
  ])('%s is refused', (text, reason) => {
    const result = parseFormula(text, { file: 'shelf.csv', line: 2, field: 'formula' });
    expect(result.ok).toBe(false);
    const [p] = result.ok ? [] : result.problems;
    expect(p).toMatchObject({ code: 'formula', severity: 'error', where: { line: 2 } });
    expect(`${p!.found} | ${p!.expected} | ${p!.fix}`).toMatch(reason);
  });
});

describe('laws', () => {
  const part = fc.constantFrom('KNO3', 'CaCl2', 'MgSO4', 'NH4NO3', 'CO(NH2)2', '(NH4)2HPO4', 'H2O', 'FeC10H12N2O8Na');
  const counted = fc.array(fc.tuple(fc.integer({ min: 1, max: 30 }), part), { minLength: 1, maxLength: 5 });

  it('a formula of parts weighs and holds what its parts do', () => {
    fc.assert(
      fc.property(counted, (parts) => {
        const whole = formula(parts.map(([n, text]) => `${n}${text}`).join('·'));
        const sum = (of: (text: string) => number): number => parts.reduce((s, [n, text]) => s + n * of(text), 0);
        // Sums of a few thousand atomic weights in double precision.
        expect(whole.molarMass).toBeCloseTo(
          sum((text) => formula(text).molarMass),
          8,
        );
        for (const form of NITROGEN_FORMS)
          expect(whole.nitrogen[form]).toBe(sum((text) => formula(text).nitrogen[form]));
      }),
    );
  });

  it('the forms of nitrogen sum to nitrogen, in mg/g', () => {
    fc.assert(
      fc.property(counted, (parts) => {
        const mg = nutrientsPerGram(formula(parts.map(([n, text]) => `${n}${text}`).join('.')));
        expect(NITROGEN_FORMS.reduce((s, form) => s + mg[form], 0)).toBeCloseTo(mg.N, 9);
      }),
    );
  });

  it('never throws on any text', () => {
    fc.assert(fc.property(fc.string({ maxLength: 40 }), (text) => void expect(() => parseFormula(text)).not.toThrow()));
    const like = fc.string({
      unit: fc.constantFrom('K', 'N', 'O', '3', '.', '(', ')', '2', '/', ' ', 'a', '·'),
      maxLength: 30,
    });
    fc.assert(fc.property(like, (text) => void expect(() => parseFormula(text)).not.toThrow()));
  });
});
