import { expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { blendJson } from '../../src/report/json/blend.js';
import { shelfFiles } from '../desk/benches.js';

it('tells the source of an element that a rule of the grower asks for, with the ammonium it brings', async () => {
  const shelf = shelfFiles(
    'id,form,N,NO3-N,NH4-N,P2O5,K2O,Ca,Mg,SiO2\ncalcium-nitrate,powder,11.9,11.9,,,,17,,\nkno3,powder,13,13,,,46,,,\nmkp,powder,,,,52,34,,,\nepsom,powder,,,,,,,9.8,\nsilicate-a,powder,1.1,,1.1,,,,,40.65\n',
  );
  const wishes = { plants: 'fern', medium: 'bark', water: ['pure'], nh4: '0', rule: ['Si >= 5'] };
  const { met, results } = await blendFeeds(shelf, wishes);
  expect(met).toBe(false);
  // 11 mg to 190 mg is 1.1 to 19
  expect(JSON.stringify(blendJson(results[0]!))).toContain(
    'Si can only come from silicate-a, which brings 11 mg of NH4-N per 190 mg of Si; NH4 <= 0 * N allows none',
  );
});
