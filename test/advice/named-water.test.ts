import { describe, expect, it } from 'vitest';
import { otherWater } from '../../src/advice/named-water.js';
import { assessWords } from '../../src/desk/assess.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { reportOf } from '../../src/report/report-of.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from '../desk/benches.js';

const { waters } = shippedCatalog();
const water = (id: string) => waters.filter((one) => one.id === id);

describe('a water that advice names', () => {
  it.each([
    ['1 g sample-base in 4 L of RO water', 'pure'],
    ['1/4 tsp 20-20-20 per gallon of reverse osmosis water', 'pure'],
    ['0.5 g/L potassium nitrate in rainwater', 'pure'],
    ['1 tsp per gallon of distilled water', 'pure'],
    ['dissolve 1 g in 2 L of deionized water', 'pure'],
    ['in 4 litres of tap water dissolve 1 g sample base', 'tap'],
    ['1 g/L in hard water', 'tap'],
  ] as const)('"%s" is for %s water', (text, named) => {
    const [pure, tap] = [otherWater(text, water('pure')), otherWater(text, water('median-tap'))];
    expect([pure?.named ?? null, tap?.named ?? null]).toEqual(named === 'pure' ? [null, 'pure'] : ['tap', null]);
  });

  it.each([
    '5 g sample-rainwater in 4 L',
    '1 g Rainwater Powder in 4 L',
    '0.4 mS/cm above your tap water',
    '100 ppm N on top of the tap water',
    '1 g base in 4 L of water',
    'soft water',
  ])('"%s" names none', (text) => {
    for (const { id } of waters) expect(otherWater(text, water(id)), id).toBeNull();
  });

  it('is told where the bench takes another, in recipes and in advice', async () => {
    const bench = (use: string) => {
      const { bench: file, shelf } = exampleFiles('moss-without-ammonium');
      return { bench: { ...file!, text: file!.text.replace(/^water:.*$/m, `water: { use: ${use} }`) }, shelf: shelf! };
    };
    const says = async (recipe: string, use: string): Promise<string> => {
      const told = await assessWords(bench(use), { recipe, feed: 'moss' });
      const sheet = told.about === 'recipe' ? reportOf('assess', told.result) : reportOf('advice', told.result);
      return renderText(sheet, { columns: 400, colour: false });
    };
    const recipe = '1 g sample-base in 4 L of RO water';
    expect(await says(recipe, 'median-tap')).toContain('The advice is for RO water; this bench takes Median tap water');
    expect(await says(recipe, 'rain')).not.toContain('The advice is for');
    expect(await says('125 ppm N in tap water', 'rain')).toContain(
      'The advice is for tap water; this bench takes Rain water',
    );
    expect(await says('125 ppm N in tap water', 'median-tap')).not.toContain('The advice is for');
  });
});
