import { describe, expect, it } from 'vitest';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { pageOf } from '../../src/report/sheet-page/page.js';
import { exampleFiles } from './benches.js';

const { shelf } = exampleFiles('spoons-alone');

async function ladder(cans: string): Promise<string> {
  const text = `name: any
water: { use: rain }
kit: { scale: 0.01 g${cans} }
feeds:
  moths: { plants: moth orchids, medium: bark, strength: 75 %, batch: 4 L }
`;
  const [sheet] = (await mixingSheets({ bench: { name: 'bench.yaml', text }, shelf: shelf! }, {})).results;
  return sheet!.status === 'kept'
    ? pageOf(sheet!)
        .ladder.map(({ says }) => says)
        .join('\n')
    : '';
}

describe('a reading that is a tenth low', () => {
  it('is water too much only where a can holds so much', async () => {
    // a tenth weaker is a ninth more water: 4.44 L
    expect(await ladder('')).toMatch(/10 % low: about 4\d0 mL of water too much/);
    expect(await ladder(', cans: [5 L]')).toMatch(/10 % low: about 4\d0 mL of water too much/);
    expect(await ladder(', cans: [4.2 L]')).toContain('10 % low: too little measured in');
  }, 60_000);
});
