import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { assessRecipe } from '../../src/desk/assess.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { reportOf } from '../../src/report/report-of.js';
import { renderText } from '../../src/report/text.js';

// the shelf is invented but for its salts; the water too: hard enough that the can stands near pH 8
const SALTS = `calcium-nitrate,Calcium nitrate,powder,Ca(NO3)2·4H2O,,,1 kg,5
potassium-nitrate,Potassium nitrate,powder,KNO3,,,1 kg,5
mono,Monopotassium phosphate,powder,KH2PO4,,,1 kg,3
diammonium,Diammonium phosphate,powder,(NH4)2HPO4,,,1 kg,4
epsom,Epsom salt,powder,MgSO4·7H2O,,,1 kg,3`;
const EDTA = 'edta,Iron A,powder,,13,iron EDTA,100 g,6';
const UNNAMED = 'plain,Iron C,powder,,13,,100 g,5';
// ten times dearer, so that nothing but its chelate speaks for it
const EDDHA = 'eddha,Iron B,powder,,6,iron EDDHA,100 g,60';

const bench = (irons: string[], alkalinity: number, pH: number): BenchFiles => ({
  bench: {
    name: 'bench.yaml',
    text: `name: Any\ncurrency: EUR\nwater: { Ca: 40, Mg: 8, alkalinity: ${alkalinity}, pH: ${pH} }\nkit: { scale: 0.01 g }\nfeeds:\n  orchids: { plants: cattleya, medium: bark, phase: growth, strength: 60 %, batch: 10 L, weekly: 10 L }\n`,
  },
  shelf: { name: 'shelf.csv', text: ['id,name,form,formula,Fe,derivedFrom,pack,price', SALTS, ...irons].join('\n') },
});
async function blended(irons: string[], alkalinity = 130, pH = 7.9) {
  const { results } = await blendFeeds(bench(irons, alkalinity, pH), {});
  const [result] = results;
  if (result?.status !== 'made') throw new Error(`a feed was expected, not ${result?.status}`);
  const text = renderText(reportOf('blend', result), { columns: 400, colour: false });
  return { ...result, ids: result.items.map(({ id }) => id), text };
}

describe('iron counts where its chelate holds at the pH of the can', () => {
  it.each([[[EDTA, EDDHA]], [[UNNAMED, EDDHA]], [[EDTA, UNNAMED, EDDHA]]])(
    'so that an iron that holds comes in, whatever it costs: %s',
    async (irons) => {
      const made = await blended(irons);
      expect(made.ids).toContain('eddha');
      const line = made.elements.find(({ element }) => element === 'Fe')!;
      expect(made.iron!.held).toBeGreaterThanOrEqual(line.min!);
      // what does not hold counts in no figure but the most
      expect(line.low).toBeCloseTo(made.iron!.held, 9);
    },
  );

  it('and stays with the cheap one where that holds too', async () => {
    const made = await blended([EDTA, EDDHA], 15, 6);
    expect(made.ph.asMixed).toBeLessThan(7);
    expect(made.ids).toContain('edta');
    expect(made.ids).not.toContain('eddha');
  });

  it('a feed that has no other iron says which does not count, what it lacks, and what would help', async () => {
    const made = await blended([EDTA]);
    const held = made.iron!.held;
    expect(held).toBe(0);
    expect(made.text).toMatch(/It is not held in Iron A \(EDTA, to pH 7\.0\)/);
    expect(made.text).toContain('--with iron-eddha');
    const { custom } = (made as unknown as { given: { custom: { limit: { nutrient?: string } }[] } }).given;
    expect(custom.map(({ limit }) => limit.nutrient)).toContain('Fe');
    // and it does help
    const { results } = await blendFeeds(bench([EDTA], 130, 7.9), { with: ['iron-eddha'] });
    const helped = results[0]!;
    expect(helped.status === 'made' && helped.iron!.held > 0.1).toBe(true);
  });

  it('a sheet mixes the same, and a recipe of it is judged the same', async () => {
    const irons = bench([EDTA, EDDHA], 130, 7.9);
    const [sheet] = (await mixingSheets(irons, {})).results;
    expect(JSON.stringify(sheet)).toContain('eddha');
    const { items } = await blended([EDTA, EDDHA]);
    const recipe = `${items.map(({ id, perBatch }) => `${perBatch!.toFixed(4)} g ${id}`).join(' + ')} in 10 L`;
    const { result } = await assessRecipe(irons, { recipe });
    const lacks =
      'misses' in result ? result.misses.filter(({ limit }) => 'nutrient' in limit && limit.nutrient === 'Fe') : null;
    expect(lacks).toEqual([]);
  });

  it.each(['0.6', '0.9'])('a remedy at %s counts it alike: by what holds after it', async (reading) => {
    const { items } = await blended([EDTA]);
    const recipe = `${items.map(({ id, perBatch }) => `${perBatch!.toFixed(4)} g ${id}`).join(' + ')} in 10 L`;
    const { result } = await judgeReading(bench([EDTA, EDDHA], 130, 7.9), { recipe, reading: [reading] });
    const settled = result.remedy.status === 'check first' ? result.remedy.unknowing : result.remedy;
    if (!('mix' in settled)) throw new Error(settled.status);
    const { mix, misses } = settled;
    const least = mix.elements.find(({ element }) => element === 'Fe')!.min!;
    // half of what a can needs does not come from a chelate that lets go: either another holds it, or it is told as missed
    const isTold = misses.some(
      ({ limit }) => limit.kind === 'nutrient' && limit.nutrient === 'Fe' && limit.end === 'least',
    );
    expect(mix.iron!.held >= least * (1 - 1e-6)).toBe(!isTold);
  });

  it('a remedy for iron that was forgotten brings the iron that holds, not the cheap one that does not', async () => {
    const { items } = await blended([EDTA, EDDHA]);
    const recipe = `${items.map(({ id, perBatch }) => `${perBatch!.toFixed(4)} g ${id}`).join(' + ')} in 10 L`;
    const { result } = await judgeReading(bench([EDTA, EDDHA], 130, 7.9), { recipe, did: 'forgot eddha' });
    const { remedy } = result;
    if (remedy.status !== 'rescue') throw new Error(remedy.status);
    expect(remedy.doing.add.map(({ id }) => id)).toContain('eddha');
    expect(remedy.doing.add.map(({ id }) => id)).not.toContain('edta');
  });
});
