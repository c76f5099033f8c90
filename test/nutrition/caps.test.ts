import { describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { exampleFiles } from '../desk/benches.js';

/** Potassium nitrate is the cheap nitrogen, and one of calcium and magnesium is dear. Prices are invented. */
const shelfOf = (dear: 'Ca' | 'Mg'): string => `id,name,form,formula,N,Fe,Mn,Zn,Cu,B,Mo,density,derived_from,pack,price
saltpetre,Potassium nitrate,powder,KNO3,,,,,,,,,,1 kg,1
nitrate-of-ammonia,Ammonium nitrate,powder,NH4NO3,,,,,,,,,,1 kg,20
mkp,Monopotassium phosphate,powder,KH2PO4,,,,,,,,,,1 kg,20
lime-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,,,,,,,,1 kg,${dear === 'Ca' ? 100 : 2}
epsom,Epsom salt,powder,MgSO4·7H2O,,,,,,,,,,1 kg,${dear === 'Mg' ? 100 : 0.1}
trace,Trace liquid,liquid,,0,0.16,0.06,0.022,0.007,0.022,0.002,1.02,iron DTPA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate,1 L,5
`;
const filesFor = (plants: string, dear: 'Ca' | 'Mg') => ({
  bench: {
    name: 'bench.yaml',
    text: `currency: EUR\nwater: { use: pure }\nkit: { scale: 0.01 g, syringe: 1 mL }\nfeeds:\n  feed: { plants: ${plants}, medium: bark, phase: bloom, batch: 10 L }\n`,
  },
  shelf: { name: 'shelf.csv', text: shelfOf(dear) },
});
const KEPT = 1 + 1e-6; // rounding of doubles

/** K over an element by weight in the cheapest mix, or in the feed to give; `without` a rule of the catalog. */
async function potassiumOver(element: 'Ca' | 'Mg', plants: string, bare: boolean, without?: string) {
  const whole = shippedCatalog();
  const catalog = { ...whole, rules: whole.rules.filter(({ rule }) => rule !== without) };
  expect(whole.rules.length - catalog.rules.length).toBe(without === undefined ? 0 : 1);
  const [mix] = (await blendFeeds(filesFor(plants, element), bare ? { bare } : {}, catalog)).results;
  if (mix?.status !== 'made') throw new Error(`${plants}: ${mix?.status}`);
  const at = (wanted: string): number => mix.elements.find((line) => line.element === wanted)!.mgPerLitre;
  return at('K') / at(element);
}

describe('on a shelf where potassium is nitrate’s cheap companion', () => {
  it.each([
    ['Ca', 4, 'K <= 4 * Ca'],
    ['Mg', 10, 'K <= 10 * Mg'],
  ] as const)('K over %s comes to %d and no more, where it would go beyond', async (element, most, rule) => {
    for (const plants of ['dendrobium', 'cattleya', 'oncidium']) {
      expect(await potassiumOver(element, plants, true, rule), plants).toBeGreaterThan(most * 1.05);
      // the cheapest mix leans on the rule
      expect((await potassiumOver(element, plants, true)) / most, plants).toBeCloseTo(1, 6);
      expect(await potassiumOver(element, plants, false), plants).toBeLessThanOrEqual(most * KEPT);
    }
  });
});

it.each(['cattleyas', 'winter'])('%s of the example: half of the nitrogen or more is nitrate', async (feed) => {
  const [mix] = (await blendFeeds(exampleFiles('what-the-shelf-reaches'), { feed })).results;
  if (mix?.status !== 'made') throw new Error(mix?.status);
  expect(mix.feed.plants).toBe('cattleya');
  const { nitrate, ammonium, urea, undeclared } = mix.nitrogenShares!;
  expect(nitrate * KEPT).toBeGreaterThanOrEqual(0.5);
  expect(ammonium + urea + undeclared).toBeLessThanOrEqual(0.5 * KEPT);
});
