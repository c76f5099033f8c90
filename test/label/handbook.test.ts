import { describe, expect, it } from 'vitest';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import type { Analysis } from '../../src/label/index.js';
import { parseAmount } from '../../src/units/index.js';
import { content, powder } from './labels.js';

/** mg/L of a nutrient when a powder is given at a rate such as `13.5 oz/100 US gal`. */
function mgPerLitre(analysis: Analysis, nutrient: Nutrient, rate: string): number {
  const read = parseAmount(rate);
  if (!read.ok || read.value.kind !== 'mass per volume') throw new Error(rate);
  return read.value.gramsPerLitre * content(analysis, nutrient).low;
}

/** oz per 100 US gal for a wanted mg/L of N. */
const ouncesFor = (mg: number, percentN: number): number =>
  mg / mgPerLitre(powder({ N: percentN }), 'N', '1 oz/100 US gal');

describe('rates in handbooks', () => {
  it('an ounce of a 1 % product in 100 US gal is 0.74892 mg/L (computed from the avoirdupois ounce and the US gallon)', () => {
    expect(mgPerLitre(powder({ N: 1 }), 'N', '1 oz/100 US gal')).toBeCloseTo(0.74892, 5);
  });

  // UMass Extension, Fertilizer Calculations for Greenhouse Crops. Its figures are rounded up by about 1 %, hence 2 %.
  it.each([
    [{ N: 20, P2O5: 20, K2O: 20 }, 13.5],
    [{ N: 15, P2O5: 15, K2O: 15 }, 18],
  ])('UMass: 200 mg/L N of %o takes %s oz in 100 US gal', (percent, ounces) => {
    expect(Math.abs(mgPerLitre(powder(percent), 'N', `${ounces} oz/100 US gal`) / 200 - 1)).toBeLessThan(0.02);
  });

  // Texas A&M, Nutrient calculations: worked with 75 × fraction, 0.14 % above the exact 74.892; ounces printed whole.
  it('Texas A&M: an ounce of 15 % N in 100 US gal is 11.25 mg/L', () => {
    expect(Math.abs(mgPerLitre(powder({ N: 15 }), 'N', '1 oz/100 US gal') / 11.25 - 1)).toBeLessThan(0.002);
  });

  it('Texas A&M: 250 mg/L of 15 % N takes 22 oz', () => {
    expect(Math.round(ouncesFor(250, 15))).toBe(22);
  });

  it('Texas A&M: an erratum is not repeated. 33 % N takes 6.07 and 8.09 oz for 150 and 200 mg/L, not the printed 5 and 7', () => {
    expect(ouncesFor(150, 33)).toBeCloseTo(6.07, 2);
    expect(ouncesFor(200, 33)).toBeCloseTo(8.09, 2);
    expect(Math.abs(ouncesFor(150, 33) - 5)).toBeGreaterThan(1);
    expect(Math.abs(ouncesFor(200, 33) - 7)).toBeGreaterThan(1);
  });
});

describe('labels as elements: Wang & Konow 2002, J. Amer. Soc. Hort. Sci. 127:442', () => {
  // Printed to 0.1 %: half a unit of that.
  it.each([
    [{ N: 10, P2O5: 30, K2O: 20 }, 13.1, 16.6],
    [{ N: 20, P2O5: 5, K2O: 19 }, 2.2, 15.8],
  ])('%o', (percent, p, k) => {
    const label = powder(percent);
    expect(content(label, 'N').stated).toBe(percent.N * 10);
    expect(Math.abs(content(label, 'P').stated! / 10 - p)).toBeLessThanOrEqual(0.05);
    expect(Math.abs(content(label, 'K').stated! / 10 - k)).toBeLessThanOrEqual(0.05);
  });

  it('20-5-19 at 200 mg/L N gives 22 mg/L P', () => {
    const label = powder({ N: 20, P2O5: 5, K2O: 19 });
    expect(Math.round((200 / content(label, 'N').low) * content(label, 'P').low)).toBe(22);
  });
});

describe('one product, several ways of writing its label', () => {
  it('oxides (EU) and elements (Australia) tell the same', () => {
    const oxides = powder({ P2O5: 10, K2O: 20, CaO: 5, MgO: 3, SO3: 4, Na2O: 1, SiO2: 2 });
    const elements = powder({ P: 4.3643, K: 16.603, Ca: 3.5735, Mg: 1.80912, S: 1.60184, Na: 0.74186, Si: 0.93488 });
    for (const nutrient of ['P', 'K', 'Ca', 'Mg', 'S', 'Na', 'Si'] as const) {
      // Factors above are rounded to five figures.
      expect(content(oxides, nutrient).stated! / content(elements, nutrient).stated!).toBeCloseTo(1, 4);
    }
  });

  it('a liquid by volume and by mass with its density tell the same', () => {
    const byMass: Analysis = { form: 'liquid', basis: 'w/w', density: 1.25, percent: { N: 4, P2O5: 2, K2O: 8 } };
    const byVolume: Analysis = { form: 'liquid', basis: 'w/v', percent: { N: 5, P2O5: 2.5, K2O: 10 } };
    for (const nutrient of ['N', 'P', 'K'] as const) {
      expect(content(byMass, nutrient).stated).toBeCloseTo(content(byVolume, nutrient).stated!, 9);
    }
    expect(content(byVolume, 'N').stated).toBe(50);
  });

  it('phosphoric acid 85 % by mass, 1.685 g/mL: 14.6 mol/L, as handbooks of chemistry print (from memory)', () => {
    const acid: Analysis = { form: 'liquid', percent: {}, formula: 'H3PO4', purity: 85, density: 1.685 };
    expect(content(acid, 'P').stated! / 30.974).toBeCloseTo(14.6, 1);
  });
});
