import { describe, expect, it } from 'vitest';
import type { SolutionIons } from '../../src/can/clouding.js';
import { ceilingOf, ceilingsAt, fullness } from '../../src/stock/solubility.js';
import { referenceRows } from '../reference/reference.js';
import { salt, strongestOf, table } from './stock.js';

const at = (celsius: number, name: string) => ceilingsAt(table, celsius).find((c) => c.name === name)!;

describe('solubility', () => {
  it('reads the table straight between its columns, level outside', () => {
    // KNO3 101.103 g/mol; 13.3, 20.9, 31.6 g in 100 g of water at 0, 10, 20 °C (CRC Handbook, from memory)
    expect(at(0, 'potassium nitrate').molality).toBeCloseTo(133 / 101.103, 4);
    expect(at(10, 'potassium nitrate').molality).toBeCloseTo(209 / 101.103, 4);
    expect(at(15, 'potassium nitrate').molality).toBeCloseTo(262.5 / 101.103, 4);
    expect(at(40, 'potassium nitrate').molality).toBe(at(30, 'potassium nitrate').molality);
  });

  it('never falls with temperature', () => {
    for (const row of table) for (const i of [1, 2, 3]) expect(row.grams[i]!).toBeGreaterThanOrEqual(row.grams[i - 1]!);
  });

  it('finds a salt with its crystal water, by formula or by its only source', () => {
    const ceilings = ceilingsAt(table, 10);
    expect(ceilingOf(salt('MgSO4·7H2O'), ceilings)?.ceiling.name).toBe('magnesium sulfate');
    expect(ceilingOf(salt('MgSO4.H2O'), ceilings)?.ceiling.name).toBe('magnesium sulfate');
    expect(ceilingOf({ derivedFrom: ['boric acid'] }, ceilings)?.ceiling.name).toBe('boric acid');
    expect(ceilingOf({ derivedFrom: ['kelp'] }, ceilings)).toBeNull();
  });

  it('is 1 in the saturated solution of a single salt', () => {
    for (const [name, ions] of [
      ['potassium nitrate', ['K', 'NO3']],
      ['potassium sulfate', ['K', 'SO4']],
      ['monoammonium phosphate', ['NH4', 'P']],
    ] as const) {
      const ceiling = at(20, name);
      const held = (ion: keyof SolutionIons) =>
        (ions as readonly string[]).includes(ion) ? ceiling.molality * ceiling.ions!.get(ion)! : 0;
      expect(fullness(ceiling, held)).toBeCloseTo(1, 12);
    }
  });

  it('agrees with PHREEQC on potassium sulfate in stock bottles: log10 of the ion product within 0.35', () => {
    const rows = referenceRows('stock_bottles.csv').filter((row) => Number(row.get('SI_arcanite') || -9) > -1);
    expect(rows.length).toBeGreaterThan(5);
    const ceiling = at(25, 'potassium sulfate');
    for (const row of rows) {
      const molality = (ion: keyof SolutionIons) => Number(row.get(`${ion}_mmol_L`) ?? 0) / 1000;
      const index = 3 * Math.log10(fullness(ceiling, molality));
      // the tables themselves are good to 0.3 at this strength; leaving activity out is to err upwards
      expect(index - Number(row.get('SI_arcanite')), row.get('id')).toBeGreaterThan(-0.35);
    }
  });

  it('stops a product that is one salt at nine tenths of its solubility', () => {
    // boric acid 3.49 g in 100 g of water at 10 °C (CRC Handbook, from memory): 0.9 × 34.9 = 31.4 g per kg, and 0.98 kg of water in a litre
    const most = strongestOf([['H3BO3', 0.01]])[0]!.ratio!;
    expect(most).toBe(1000);
    const strong = strongestOf([['H3BO3', 1]])[0]!;
    expect(strong.ratio).toBe(30);
    expect(strong.limitedBy).toEqual([{ kind: 'product', name: 'H3BO3', celsius: 10 }]);
  });
});
