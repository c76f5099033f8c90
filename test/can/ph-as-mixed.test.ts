import { describe, expect, it } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { assess } from '../../src/advice/assess.js';
import { dosedByPen } from '../../src/advice/dosed-by-pen.js';
import { parseRecipe } from '../../src/advice/recipe.js';
import { closeRecipe } from '../../src/desk/close-labels.js';
import { phSays } from '../../src/report/says/solution.js';
import { unwrap } from '../../src/problem.js';
import { request } from '../feed/fixtures.js';
import { pHByChargeBalance } from './charge-balance.js';

const catalog = shippedCatalog();
/** mmol/L of carbon dioxide in pure water at rest with the air: 10^−1.47 mol/L/atm (CRC Handbook, from memory) at 420 ppm. */
const FROM_AIR = 1000 * 10 ** -1.47 * 420e-6;

async function phOf(recipe: string, source = 'pure') {
  const waters = catalog.waters.filter((w) => w.id === source);
  const closed = await closeRecipe(unwrap(parseRecipe(`${recipe} in 1 L`, [...catalog.salts, ...catalog.products])));
  const read = unwrap(dosedByPen(closed, waters));
  const shelf = [...new Set(read.lines.map((line) => line.product))];
  return (await assess(read, { ...request(shelf, {}), waters }, false)).ph;
}

describe('pH as mixed in pure water', () => {
  // reckoned by hand; a tenth is what hand and strips tell apart
  it.each([
    ['0.05 g potassium-carbonate', 10.3],
    ['0.2 g dipotassium-phosphate', 8.9],
    ['0.2 g diammonium-phosphate', 8.0],
  ])('%s: %s', async (recipe, byHand) => {
    expect(Math.abs((await phOf(recipe)).asMixed - byHand)).toBeLessThan(0.1);
  });

  const mmol = (grams: number, molarMass: number): number => (1000 * grams) / molarMass;
  const carbonate = FROM_AIR;
  const cases: [string, Parameters<typeof pHByChargeBalance>[0]][] = [
    ['0.05 g potassium-carbonate', { strong: 2 * mmol(0.05, 138.205), carbonate: mmol(0.05, 138.205) + carbonate }],
    ['0.1 g potassium-bicarbonate', { strong: mmol(0.1, 100.115), carbonate: mmol(0.1, 100.115) + carbonate }],
    ['0.2 g dipotassium-phosphate', { strong: 2 * mmol(0.2, 174.174), phosphate: mmol(0.2, 174.174), carbonate }],
    ['0.2 g monopotassium-phosphate', { strong: mmol(0.2, 136.084), phosphate: mmol(0.2, 136.084), carbonate }],
    [
      '0.2 g diammonium-phosphate',
      { strong: 0, ammonium: 2 * mmol(0.2, 132.055), phosphate: mmol(0.2, 132.055), carbonate },
    ],
    [
      '0.5 g monoammonium-phosphate',
      { strong: 0, ammonium: mmol(0.5, 115.024), phosphate: mmol(0.5, 115.024), carbonate },
    ],
    ['0.05 g potassium-metasilicate', { strong: 2 * mmol(0.05, 154.279), silicate: mmol(0.05, 154.279), carbonate }],
    ['0.0044 g borax', { strong: 2 * mmol(0.0044, 381.36), borate: 4 * mmol(0.0044, 381.36), carbonate }],
    ['0.5 g urea', { strong: 0, carbonate }],
    ['1 g potassium-nitrate', { strong: 0, carbonate }],
    // 53 % of 1.33 g/mL and 75 % of 1.58 g/mL
    ['0.04 mL nitric-acid', { strong: -mmol(0.04 * 1.33 * 0.53, 63.012), carbonate }],
    ['0.035 mL phosphoric-acid', { strong: 0, phosphate: mmol(0.035 * 1.58 * 0.75, 97.994), carbonate }],
    [
      '0.05 g potassium-metasilicate + 0.2 g ammonium-sulfate',
      {
        strong: 2 * mmol(0.05, 154.279) - 2 * mmol(0.2, 132.134),
        silicate: mmol(0.05, 154.279),
        ammonium: 2 * mmol(0.2, 132.134),
        carbonate,
      },
    ],
  ];
  // 0.1: no ion pairs here, and Davies' equation instead of the extended one
  it.each(cases)('%s agrees with its charge balance', async (recipe, totals) => {
    expect(Math.abs((await phOf(recipe)).asMixed - pHByChargeBalance(totals))).toBeLessThan(0.1);
  });

  it('urea is neutral: pure water with it stays as it was', async () => {
    const ph = await phOf('1 g urea');
    expect(Math.abs(ph.asMixed - (await phOf('0.0001 g urea')).asMixed)).toBeLessThan(0.02);
  });

  it('a water brings the carbon dioxide of its own pH: by itself it reads that pH, and climbs in air', async () => {
    for (const { id, pH } of catalog.waters.filter((w) => w.pH !== undefined && w.alkalinity >= 20)) {
      const ph = await phOf('0.0001 g urea', id);
      expect(Math.abs(ph.asMixed - pH!)).toBeLessThan(0.1);
      expect(ph.value).toBeGreaterThanOrEqual(ph.asMixed);
    }
  });

  it('both are said where they differ, one where they do not', async () => {
    expect(phSays(await phOf('0.05 g potassium-carbonate'))).toMatch(
      /^about 10\.\d as mixed, 8\.\d \(.*\) after standing in air$/,
    );
    expect(phSays(await phOf('0.2 g monopotassium-phosphate'))).toMatch(/, as mixed and after standing in air$/);
  });
});

describe('the charge balance itself', () => {
  // NIST standard buffer: KH2PO4 0.025 + Na2HPO4 0.025 mol/kg reads 6.865 at 25 °C (from memory); 0.05 for molality and Davies' equation
  it('gives the phosphate standard 6.865', () => {
    expect(Math.abs(pHByChargeBalance({ strong: 75, phosphate: 50 }) - 6.865)).toBeLessThan(0.05);
  });
});
