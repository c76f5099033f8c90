import { describe, expect, it } from 'vitest';
import { assessRecipe } from '../../src/desk/assess.js';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { undeclaredSays } from '../../src/report/says/sheet.js';
import { dice } from '../solver/dice.js';

const HEAD =
  'id,name,form,basis,formula,NO3-N,NH4-N,urea-N,P2O5,K2O,Ca,Mg,Fe,Mn,Zn,Cu,B,Mo,bulk_density,derived_from,pack,price';

/** A seeded shelf of invented labels: a complete powder, a calcium powder and magnesium sulfate. */
function bench(seed: number, declared: boolean): BenchFiles {
  const d = dice(seed);
  const of = (list: string): string => (declared ? list : '');
  const one = (low: number, high: number): string => d.between(low, high).toFixed(1);
  const base = `base,Base ${seed},powder,w/w,,${one(6, 9)},${one(0.5, 1.5)},,${one(5, 9)},${one(20, 28)},,${one(1, 2)},0.2,0.08,0.03,0.01,0.02,0.003,1.05,${of('potassium nitrate; monoammonium phosphate; monopotassium phosphate; potassium sulfate; magnesium sulfate; magnesium nitrate; iron EDTA; manganese EDTA; zinc EDTA; copper EDTA; boric acid; sodium molybdate')},500 g,${one(9, 14)}`;
  const calcium = `cal,Calcium ${seed},powder,w/w,,${one(11, 12.5)},${one(0, 0.8)},,,,${one(12, 15)},${one(0.5, 2)},,,,,,,0.95,${of('calcium nitrate; magnesium nitrate; ammonium nitrate')},500 g,${one(8, 12)}`;
  const salt = 'epsom,Magnesium sulfate,powder,w/w,MgSO4·7H2O,,,,,,,,,,,,,,0.95,,1 kg,3.9';
  const yaml = `name: seeded ${seed}
currency: EUR
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.01 g }
pen: { scale: 500 }
feeds:
  orchid: { plants: phalaenopsis, medium: bark, phase: growth, strength: ${d.pick([60, 80, 100])} %, batch: ${d.pick([2, 4, 8])} L }
`;
  return {
    bench: { name: 'bench.yaml', text: yaml },
    shelf: { name: 'shelf.csv', text: [HEAD, base, calcium, salt].join('\n') },
  };
}

async function rangesOf(files: BenchFiles) {
  const [blend] = (await blendFeeds(files, {})).results;
  const [sheet] = (await mixingSheets(files, {})).results;
  const { judgement } = (await judgeReading(files, { reading: ['0.8'] })).result;
  if (!blend || !sheet || sheet.status === 'cannot') throw new Error('nothing to mix by');
  const mix = blend.status === 'made' ? blend : blend.nearest!;
  return {
    blend: mix.ec,
    sheet: sheet.end.reading,
    meter: judgement.readings[0]!.expected,
    undeclared: sheet.notes.undeclared,
  };
}

const SEEDS = [1, 2, 3, 4, 5, 6, 7];

describe('one range of EC', () => {
  it.each(SEEDS)('of labels without a list of salts blend, sheet and meter tell the same (shelf %i)', async (seed) => {
    const { blend, sheet, meter } = await rangesOf(bench(seed, false));
    for (const told of [sheet, meter]) {
      expect(told.mSPerCm).toBeCloseTo(blend.mSPerCm, 9);
      expect(told.low).toBeCloseTo(blend.low, 9);
      expect(told.high).toBeCloseTo(blend.high, 9);
    }
    expect(blend.low).toBeLessThan(blend.mSPerCm);
  });

  it('of a recipe assess and meter tell the same', async () => {
    const recipe = '0.8 g base + 0.5 g cal in 2 L';
    const files = bench(3, false);
    const told = (await assessRecipe(files, { recipe })).result;
    const { judgement } = (await judgeReading(files, { recipe, reading: ['0.8'] })).result;
    const { mSPerCm, low, high } = judgement.readings[0]!.expected;
    expect([told.ec.mSPerCm, told.ec.low, told.ec.high].map((x) => x.toFixed(9))).toEqual(
      [mSPerCm, low, high].map((x) => x.toFixed(9)),
    );
  });

  it('a list of salts makes it no wider, and then none is asked for', async () => {
    const [open, told] = [await rangesOf(bench(2, false)), await rangesOf(bench(2, true))];
    const width = ({ low, high, mSPerCm }: typeof open.blend): number => (high - low) / mSPerCm;
    expect(width(told.blend)).toBeLessThanOrEqual(width(open.blend) * 1.02);
    expect(told.undeclared).toEqual([]);
    expect(undeclaredSays(told.undeclared)).toEqual([]);
  });
});
