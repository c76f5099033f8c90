import { expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { blendJson } from '../../src/report/json/blend.js';
import { shelfFiles } from '../desk/benches.js';

it('tells the source of an element that a rule of the grower asks for, with the ammonium it brings', async () => {
  const shelf = shelfFiles(
    'id,form,N,NO3-N,NH4-N,urea-N,K2O,Ca\ncalcium-nitrate-a,powder,15.5,14.4,1.1,0,,19\nkno3,powder,13,13,0,0,46,\n',
  );
  const wishes = { plants: 'fern', medium: 'bark', water: ['pure'], nh4: '0', rule: ['Ca >= 40'] };
  const { met, results } = await blendFeeds(shelf, wishes);
  expect(met).toBe(false);
  // 11 mg to 190 mg is 1.1 to 19
  expect(JSON.stringify(blendJson(results[0]!))).toContain(
    'Ca can only come from calcium-nitrate-a, which brings 11 mg of NH4-N per 190 mg of Ca; NH4 <= 0 * N allows none',
  );
});
