import { describe, expect, it } from 'vitest';
import { labelsOf } from '../../src/desk/labels.js';
import { labelsSheet } from '../../src/report/labels.js';
import { labelsJson } from '../../src/report/json/labels.js';
import { labelsShape } from '../../src/report/schemas.js';
import { renderText } from '../../src/report/text.js';
import { shelfFiles } from './benches.js';

const HEADER = 'id,form,formula,N,NO3-N,K2O,derived_from,bulk_density,pack,price';
const full = 'full,powder,,13,13,44,potassium nitrate,1.1,500 g,9';
const bare = 'bare,powder,,13,13,44,,,,';

describe('what a shelf does not say of its jars', () => {
  it('is told once for each kind, with what mends it', async () => {
    const { result } = await labelsOf(shelfFiles(`${HEADER}\n${full}\n${bare}\nother,powder,,5,5,20,,,,\n`), {});
    expect(result.missing).toEqual([
      { of: 'bulk density', products: ['bare', 'other'] },
      { of: 'price', products: ['bare', 'other'] },
      { of: 'sources', products: ['bare', 'other'] },
    ]);
    const text = renderText(labelsSheet(result), { columns: 200, colour: false });
    for (const mends of [
      'meter --weigh "ten level 1/4 tsp of bare weigh __ g" --save',
      '--calibrate --product bare',
      'price and pack',
      'derived_from',
    ])
      expect(text).toContain(mends);
    labelsShape.parse(labelsJson(result));
  });

  it('is nothing where all is said, or where a formula says it', async () => {
    const salt = 'salt,powder,KNO3,,,,,1.2,1 kg,5';
    const { result } = await labelsOf(shelfFiles(`${HEADER}\n${full}\n${salt}\n`), {});
    expect(result.missing).toEqual([]);
    expect(renderText(labelsSheet(result), { columns: 80, colour: false })).not.toContain('does not say');
  });
});
