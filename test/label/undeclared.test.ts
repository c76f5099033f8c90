import { describe, expect, it } from 'vitest';
import { labelLine } from '../../src/label/index.js';
import { formula, nutrientsPerGram } from '../../src/chemistry/index.js';
import { accepted, content, powder } from './labels.js';
import { leftOpenSays } from '../../src/report/says/left-open.js';

describe('nitrogen without stated forms', () => {
  it('may be all ammonium, and a minimum of nitrate can count on none', () => {
    const label = powder({ N: 20, P2O5: 20, K2O: 20 });
    expect(content(label, 'N')).toEqual({ low: 200, stated: 200, high: 200 });
    for (const form of ['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const) {
      expect(content(label, form)).toEqual({ low: 0, stated: null, high: 200 });
    }
    const [open] = accepted(label).composition.open;
    expect(open).toEqual({
      kind: 'nitrogen form',
      percent: 20,
      total: null,
      forms: ['NO3-N', 'NH4-N', 'urea-N', 'other-N'],
      cap: 'counts all',
    });
    expect(leftOpenSays(open!)).toBe(
      'N 20 % without a stated form: may be nitrate, ammonium, urea or another form; a cap on ammonium counts all of it.',
    );
  });

  it('is settled where the forms sum to the total, up to rounding', () => {
    const label = powder({ N: 15, 'NO3-N': 13.1, 'NH4-N': 1.9 });
    expect(content(label, 'urea-N')).toEqual({ low: 0, stated: null, high: 0 });
    expect(content(powder({ N: 20, 'NO3-N': 6.05, 'NH4-N': 3.9, 'urea-N': 10 }), 'other-N').high).toBe(0);
  });

  it('leaves only the missing part open', () => {
    const label = powder({ N: 20, 'NO3-N': 12 });
    expect(content(label, 'NO3-N')).toEqual({ low: 120, stated: 120, high: 120 });
    expect(content(label, 'NH4-N').high).toBeCloseTo(80, 9);
  });

  it('goes by the sources: potassium nitrate alone makes it nitrate, urea and nitrate leave two forms', () => {
    expect(content(powder({ N: 13, K2O: 46 }, { derivedFrom: ['potassium nitrate'] }), 'NO3-N')).toEqual({
      low: 130,
      stated: 130,
      high: 130,
    });
    const two = powder({ N: 20, K2O: 20 }, { derivedFrom: ['potassium nitrate', 'urea', 'iron EDTA'] });
    expect(content(two, 'NH4-N').high).toBe(0);
    expect(content(two, 'urea-N').high).toBe(200);
    expect(content(two, 'NO3-N').high).toBe(200);
    const unclear = powder({ N: 20, K2O: 20 }, { derivedFrom: ['potassium nitrate', 'fish emulsion'] });
    expect(content(unclear, 'NH4-N').high).toBe(200);
  });

  it('is none where the label says 0', () => {
    expect(content(powder({ N: 0, P2O5: 52, K2O: 34 }), 'NH4-N')).toEqual({ low: 0, stated: null, high: 0 });
  });
});

describe('chloride, sulfur and sodium that a label does not state', () => {
  it('0-0-60 can be potassium chloride: the bound is just its chloride, of up to the 61 % that print as 60', () => {
    const chloride = content(powder({ K2O: 60 }), 'Cl');
    const kcl = nutrientsPerGram(formula('KCl'));
    const potassium = (content(powder({ K2O: 60 }), 'K').low * 61) / 60;
    expect(chloride.low).toBe(0);
    expect(chloride.high).toBeCloseTo((potassium * kcl.Cl) / kcl.K, 6);
  });

  it('0-0-50 can be potassium sulfate: the bound is just its sulfur', () => {
    const label = powder({ K2O: 50 });
    const salt = nutrientsPerGram(formula('K2SO4'));
    expect(content(label, 'S').high).toBeCloseTo(((51 / 50) * (content(label, 'K').low * salt.S)) / salt.K, 6);
  });

  it('16-0-0 can be sodium nitrate, if it does not say its forms', () => {
    const label = powder({ N: 16 });
    const salt = nutrientsPerGram(formula('NaNO3'));
    expect(content(label, 'Na').high).toBeCloseTo((160 * salt.Na) / salt.N, 6);
  });

  it('sodium beside nitrogen without a form pays for the nitrate that it needs', () => {
    // 30-10-10, whole numbers: at most as sodium nitrate in the mass left, 29.5 N as NH3, 9.5 P2O5 as PO3 and 9.5 K2O as K taken off;
    // NO3 − NH3 = 44.97.
    const label = powder({ N: 30, P2O5: 10, K2O: 10 });
    const left = 1000 - 295 / 0.82244 - 0.95 * ((content(label, 'P').low * 78.971) / 30.974 + content(label, 'K').low);
    expect(content(label, 'Na').high).toBeCloseTo((left * 22.99) / (22.99 + 44.97), 0);
    // Beside stated nitrate it needs its own mass only: sodium nitrate by its label, forms stated, up to the 16.3 that print as 16.2.
    const stated = powder({ N: 16.2, 'NO3-N': 16.2 });
    expect(content(stated, 'Na').high).toBeCloseTo((163 * 22.99) / 14.007, 6);
  });

  it('a balance that closes leaves no more room than its digits hide: potassium nitrate, Epsom salt by their labels', () => {
    // By hand, in tenths. K up to 46.4 % K2O = 38.52 % = 9.852 mmol/g beside nitrate from 13.65 % N = 9.745 mmol/g: 0.107 for anions;
    // nitrate up to 13.8 % = 9.852 beside K from 46.25 % K2O = 9.820: 0.032 for sodium.
    const nitrate = powder({ N: 13.7, 'NO3-N': 13.7, K2O: 46.3 });
    expect(content(nitrate, 'Cl').high).toBeCloseTo(0.107 * 35.45, 1);
    expect(content(nitrate, 'S').high).toBeCloseTo((0.107 / 2) * 32.06, 1);
    expect(content(nitrate, 'Na').high).toBeCloseTo(0.032 * 22.99, 1);
    // Mg up to 9.9 % = 8.146 meq/g beside sulfate from 12.85 % S = 8.016: 0.130 for chloride.
    expect(content(powder({ Mg: 9.8, S: 12.9 }), 'Cl').high).toBeCloseTo(0.13 * 35.45, 1);
  });

  it('cannot weigh more than the figures leave', () => {
    // K and Ca bring more charge than the mass left could balance.
    const label = powder({ N: 4, 'NO3-N': 4, K2O: 60, Ca: 20 });
    // whole numbers: 3.5 N, 59.5 K2O and 19.5 Ca at least
    const left = 1000 - 35 / 0.2259 - 595 * 0.83015 - 195;
    expect(content(label, 'Cl').high).toBeCloseTo(left, 0);
    expect(content(label, 'S').high).toBeCloseTo(left * 0.33376, 0);
  });

  it('sources without it settle it; trace salts bring only their share', () => {
    const label = powder(
      { N: 10, 'NH4-N': 10, P2O5: 10, Fe: 0.12 },
      { derivedFrom: ['ammonium nitrate', 'monoammonium phosphate', 'iron EDTA'] },
    );
    expect(content(label, 'Cl').high).toBe(0);
    expect(content(label, 'S').high).toBe(0);
    // FeNaEDTA holds one sodium per iron: 22.99 ÷ 55.845 of the 1.3 mg/g that print as 0.12 %.
    expect(content(label, 'Na').high).toBeCloseTo((1.3 * 22.99) / 55.845, 6);
    const chloride = powder(
      { N: 10, 'NH4-N': 10, P2O5: 10 },
      { derivedFrom: ['ammonium chloride', 'monoammonium phosphate'] },
    );
    expect(content(chloride, 'Cl').high).toBeGreaterThan(100);
  });

  it('every pure salt lies within what its own label leaves open', () => {
    const salts = [
      'KNO3',
      'KCl',
      'K2SO4',
      'NH4Cl',
      '(NH4)2SO4',
      'NaNO3',
      'NaH2PO4',
      'MgSO4.7H2O',
      'MgCl2.6H2O',
      'CaCl2.2H2O',
      'Ca(NO3)2.4H2O',
      'MnSO4.H2O',
    ];
    for (const text of salts) {
      const mg = nutrientsPerGram(formula(text));
      const percent = Object.fromEntries(
        Object.entries(mg)
          .filter(([n, x]) => x > 0 && !['S', 'Cl', 'Na'].includes(n))
          .map(([n, x]) => [n, x / 10]),
      );
      for (const nutrient of ['S', 'Cl', 'Na'] as const) {
        expect(content(powder(percent), nutrient).high, `${nutrient} in ${text}`).toBeGreaterThanOrEqual(
          mg[nutrient] - 1e-6,
        );
      }
    }
  });
});

describe('other nutrients that a label does not state', () => {
  it('count as none, and that is said', () => {
    const { composition } = accepted(powder({ N: 13.7, 'NO3-N': 13.7, K2O: 46.3 }));
    expect(composition.content.Ca).toEqual({ low: 0, stated: null, high: 0 });
    expect(composition.open.map(leftOpenSays)).toEqual([
      'S is not stated: between 0 and 0.17 %.',
      'Na is not stated: between 0 and 0.074 %.',
      'Cl is not stated: between 0 and 0.38 %.',
      'Not stated and counted as none: P, Ca, Mg, Fe, Mn, Zn, Cu, B, Mo.',
    ]);
  });

  it('range where a source is named for them', () => {
    const label = powder(
      { N: 15, 'NO3-N': 15, K2O: 20 },
      { derivedFrom: ['potassium nitrate', 'calcium nitrate', 'magnesium sulfate', 'copper sulfate'] },
    );
    expect(content(label, 'Ca').high).toBeGreaterThan(0);
    expect(content(label, 'Mg').high).toBeGreaterThan(0);
    expect(content(label, 'S').high).toBeGreaterThan(0);
    // The least guarantee of copper that a US label may claim, 0.05 % (from memory).
    expect(content(label, 'Cu')).toEqual({ low: 0, stated: null, high: 0.5 });
    expect(content(label, 'Zn').high).toBe(0);
  });

  it('are settled by a formula', () => {
    const { composition } = accepted(powder({}, { formula: 'KH2PO4', purity: 98 }));
    expect(composition.open).toEqual([]);
    expect(composition.content.P.stated).toBeCloseTo(0.98 * 227.609, 3);
    expect(composition.content.Cl).toEqual({ low: 0, stated: 0, high: 0 });
  });

  it('unknown sources are named', () => {
    const { open } = accepted(powder({ K2O: 5 }, { derivedFrom: ['kelp'] })).composition;
    expect(open.at(-1)).toEqual({ kind: 'unknown sources', names: ['kelp'] });
  });
});

describe('the line of the labels report', () => {
  it('shows stated and open figures in label order, and the shares of nitrogen', () => {
    const { composition, warnings } = accepted(
      powder({ N: 20, 'NO3-N': 6, 'NH4-N': 4, 'urea-N': 10, P2O5: 20, K2O: 20, Fe: 0.1 }),
    );
    const line = labelLine({ id: 'bloom', name: 'Bloom', composition }, warnings);
    expect(line.per).toBe('g/L');
    // whole numbers hide some charge, and iron may be a chelate with sodium
    const shown = ['N', 'NO3-N', 'NH4-N', 'urea-N', 'P', 'K', 'S', 'Na', 'Cl', 'Fe'];
    expect(line.elements.map((e) => e.element)).toEqual(shown);
    expect(line.elements[0]).toEqual({ element: 'N', mgPerLitre: 200, low: 200, high: 200 });
    expect(line.nitrogenShares).toEqual({ nitrate: 0.3, ammonium: 0.2, urea: 0.5, other: 0, undeclared: 0 });
    expect(line.problems).toEqual([]);
  });

  it('has no shares without nitrogen', () => {
    const { composition } = accepted(powder({ P2O5: 52, K2O: 34 }));
    expect(labelLine({ id: 'a', name: 'a', composition }).nitrogenShares).toBeNull();
  });
});
