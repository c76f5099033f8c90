import { NONE } from '../../src/chemistry/conductivity.js';
import { describe, expect, it } from 'vitest';
import {
  formula,
  linearEc,
  linearEcOfIons,
  nutrientsPerGram,
  type PerNutrient,
  perNutrient,
} from '../../src/chemistry/index.js';
import { referenceRows } from '../reference/reference.js';

interface Range {
  low: number;
  stated: number | null;
  high: number;
}

/** A pure salt, everything settled. */
function pure(text: string): PerNutrient<Range> {
  const mg = nutrientsPerGram(formula(text));
  return perNutrient((n) => ({ low: mg[n], stated: mg[n], high: mg[n] }));
}

describe('a linear estimate of conductivity', () => {
  it('an eighth of a level US teaspoon of horticultural calcium nitrate in a US gallon reads about 100 on a 500 pen', () => {
    // Common practice, no source. Bulk densities 0.9 to 1.1 g/mL; 15 % is what the rule of thumb is good for.
    for (const density of [0.9, 1, 1.1]) {
      const gramsPerLitre = ((4.92892159375 / 8) * density) / 3.785411784;
      const pen = linearEc(pure('5Ca(NO3)2.NH4NO3.10H2O')).mSPerCm * gramsPerLitre * 500;
      expect(Math.abs(pen - 100)).toBeLessThan(15);
    }
  });

  // Standard Methods 2510 / CRC Handbook, KCl at 25 °C, µS/cm. 5 %: one activity factor serves all strengths by design.
  it.each([
    [1, 146.9],
    [5, 717.5],
    [10, 1412],
  ])('KCl %s mmol/L', (mmol, measured) => {
    const own = 1000 * linearEcOfIons({ ...NONE, K: mmol, Cl: mmol });
    expect(Math.abs(own / measured - 1)).toBeLessThan(0.05);
    expect(linearEc(pure('KCl')).mSPerCm * 1000 * mmol * 0.074548).toBeCloseTo(own, 6);
  });

  it('counts no urea, boron or chelate', () => {
    expect(linearEc(pure('CO(NH2)2')).mSPerCm).toBe(0);
    expect(linearEc(pure('H3BO3')).mSPerCm).toBe(0);
  });

  it('balances an unstated partner by sulfate or chloride, and says how far it may be off', () => {
    const potash = perNutrient((n): Range => {
      if (n === 'K') return { low: 498, stated: 498, high: 498 };
      return { low: 0, stated: n === 'Cl' ? null : 0, high: n === 'Cl' ? 450 : 0 };
    });
    const ec = linearEc(potash);
    const perMg = (text: string): number => linearEc(pure(text)).mSPerCm / nutrientsPerGram(formula(text)).K;
    expect(ec.high / 498).toBeCloseTo(perMg('KCl'), 9);
    expect(ec.mSPerCm / 498).toBeCloseTo((perMg('KCl') + perMg('K2SO4')) / 2, 9);
    expect(ec.low).toBeLessThan(ec.mSPerCm);
  });

  it('counts nitrogen without a form as half ammonium nitrate, none to all of it', () => {
    const unknown = perNutrient(
      (n): Range =>
        n === 'N' ? { low: 350, stated: 350, high: 350 } : { low: 0, stated: null, high: n.endsWith('-N') ? 350 : 0 },
    );
    const ec = linearEc(unknown);
    expect(ec.low).toBe(0);
    expect(ec.mSPerCm).toBeCloseTo(ec.high / 2, 12);
    expect(ec.high / 350).toBeCloseTo(linearEc(pure('NH4NO3')).mSPerCm / nutrientsPerGram(formula('NH4NO3')).N, 9);
  });

  it('takes an acid as eating bicarbonate, at most as free hydrogen ions', () => {
    const { low, mSPerCm, high } = linearEc(pure('HNO3'));
    expect(low).toBe(mSPerCm);
    expect(high).toBeGreaterThan(5 * mSPerCm);
  });
});

describe('against published solutions in pure water, 0.2 to 1.3 mS/cm', () => {
  const rows = referenceRows('conductivity_published_pure_water.csv').map((row) => {
    const of = (column: string): number => Number(row.get(column));
    const ion = (name: string): number => of(`${name}_mmol_L`);
    const ions = {
      ...NONE,
      K: ion('K'),
      Ca: ion('Ca'),
      Mg: ion('Mg'),
      Na: ion('Na'),
      NH4: ion('NH4'),
      NO3: ion('NO3'),
      P: ion('P'),
      SO4: ion('SO4'),
      Cl: ion('Cl'),
      alkalinity: 0,
    };
    return { id: row.get('id')!, ions, reference: (of('EC25_uS_cm') + of('EC25_db2021_uS_cm')) / 2 };
  });
  const feeds = rows.filter(({ reference }) => reference >= 200 && reference <= 1300);

  it('has enough of them', () => expect(feeds.length).toBeGreaterThanOrEqual(11));

  // 7.5 %: what the documentation of the estimate owns up to; the reference itself is uncertain by 2.5 %.
  it.each(feeds.map((feed) => [feed.id, feed] as const))('%s', (_, { ions, reference }) => {
    expect(Math.abs((1000 * linearEcOfIons(ions)) / reference - 1)).toBeLessThan(0.075);
  });
});
