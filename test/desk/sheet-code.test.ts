import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { ofSheet, planOfCode } from '../../src/desk/coded-batch.js';
import { Collected } from '../../src/desk/collected.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { batchOfPlan } from '../../src/meter/index.js';
import { seeded } from '../../src/meter/matrix.js';
import { isCodable, readSheetCode } from '../../src/sheet/code.js';
import { mixingSheet } from '../../src/sheet/mixing-sheet.js';
import { randomBench, SCALE_KIT } from '../meter/benches.js';
import { SPOONS, USUAL } from '../dose/kits.js';
import { exampleFiles } from './benches.js';
import { seeds } from '../seeds.js';

const moss = exampleFiles('moss-without-ammonium');

async function sheetFor(wishes: Wishes, files: BenchFiles = moss) {
  const [sheet] = (await mixingSheets(files, wishes)).results;
  if (sheet === undefined || sheet.status === 'cannot') throw new Error('there is nothing to mix by');
  return sheet;
}

const judged = async (wishes: Wishes, files: BenchFiles = moss) =>
  (await judgeReading(files, { reading: ['0.31'], ...wishes })).result;

const changed = (change: (text: string) => string, which: 'bench' | 'shelf'): BenchFiles => ({
  ...moss,
  [which]: { ...moss[which]!, text: change(moss[which]!.text) },
});

describe('meter takes back what the sheet printed', () => {
  it.each([{}, { mix: '8 L' }, { mix: '1 US gal', sure: '80%' }, { bare: true, mix: '2.5 L' }, { closest: true }])(
    'the sheet for %o is judged as that batch',
    async (wishes) => {
      const sheet = await sheetFor(wishes);
      const told = await judged({ sheet: sheet.code! });
      const same = await judged(wishes);
      // a gallon comes back to five digits
      expect(told.litres).toBeCloseTo(same.litres, 4);
      expect(told.plan).toEqual(same.plan);
      expect(told.judgement.verdict).toBe(same.judgement.verdict);
      expect(told.judgement.causes.map(({ cause }) => cause)).toEqual(same.judgement.causes.map(({ cause }) => cause));
      expect(told.remedy.status).toBe(same.remedy.status);
    },
  );

  it('over seeded benches: items, words, order, fullness, litres', async () => {
    const random = seeded(19);
    const catalog = shippedCatalog();
    let [seen, exact] = [0, 0];
    while (seen < seeds(18, 40)) {
      const kit = [SCALE_KIT, USUAL, SPOONS][seen % 3]!;
      const made = await randomBench((n) => Math.floor(random.uniform() * n), {
        kit,
        litres: [4, 3.785, 10][seen % 3]!,
      });
      if (!made) continue;
      const { plan } = made;
      seen += 1;
      const sheet = mixingSheet(
        plan,
        plan.request,
        { status: 'made', notes: [], proof: null! },
        { pen: { reads: 'EC' }, date: null },
      );
      if (sheet.status === 'cannot') throw new Error('no sheet');
      const code = readSheetCode(sheet.code!, { field: '--sheet' });
      if (!code.ok) throw new Error('no code');
      const { header, waters, shelf } = plan.request;
      const spec = { ...header, medium: 'bark' as const, phase: 'growth' as const, rules: [], where: {} };
      const feeds = [{ ...spec, strength: { kind: 'percent' as const, percent: 100 } }] as never;
      const open = {
        bench: null,
        catalog,
        shelf: { name: '', products: shelf },
        waters,
        currency: '',
        kit,
        pen: null,
        feeds,
      };
      const { open: then, batch } = ofSheet(open, code.value, new Collected());
      expect(then.feeds[0]!.strength).toEqual({ kind: 'percent', percent: 100 * header.strengthFactor });
      const { batch: again } = planOfCode(batch!, plan.request, open);
      const planned = batchOfPlan(plan);
      expect(again.litres).toBeCloseTo(planned.litres, 9);
      expect(again.items.map(({ product, full, bySpoon }) => [product.id, full, bySpoon])).toEqual(
        planned.items.map(({ product, full, bySpoon }) => [product.id, full, bySpoon]),
      );
      again.items.forEach(({ planned: amount, words, sd }, i) => {
        const own = planned.items[i]!;
        expect(Math.abs(amount / own.planned - 1)).toBeLessThan(0.005);
        if (words === own.words && amount === own.planned && sd === own.sd) exact += 1;
        else expect(`${seen} ${words}`).toBe(`${seen} ${own.words}`);
      });
    }
    expect(exact).toBeGreaterThan(seeds(45, 100));
  });

  it('whatever has changed since: prices, stock, strength, batch', async () => {
    const { code, feed } = await sheetFor({});
    const before = await judged({ sheet: code! });
    const weaker = changed(
      (text) => text.replace(/strength: .*/, 'strength: 35 %').replace(/batch: .*/, 'batch: 11 L'),
      'bench',
    );
    expect(weaker.bench!.text).not.toBe(moss.bench!.text);
    const after = await judged({ sheet: code! }, weaker);
    expect(after.plan).toEqual(before.plan);
    expect(after.litres).toBe(before.litres);
    expect(after.feed).toMatchObject({ strengthFactor: feed.strengthFactor });
    expect(after.judgement).toEqual(before.judgement);
  });

  it('a product that left the shelf, a feed that is gone, options that choose doses: refused with what to do', async () => {
    const { code } = await sheetFor({});
    const refusal = (wishes: Wishes) =>
      judged(wishes).then(
        () => null,
        (e) => e.problems,
      );
    expect(await refusal({ sheet: code!, without: ['potassium-nitrate'] })).toMatchObject([
      { code: 'sheet-not-of-bench', fix: expect.stringContaining('shelf.csv') },
    ]);
    expect(await refusal({ sheet: code!, plants: 'cattleya', medium: 'bark' })).toMatchObject([
      { code: 'sheet-not-of-bench' },
    ]);
    expect(await refusal({ sheet: code!, mix: '8 L', near: '20%' })).toMatchObject([
      { code: 'beside-sheet', found: '--mix beside --sheet' },
      { code: 'beside-sheet', found: '--near beside --sheet' },
    ]);
    expect(await refusal({ sheet: `${code!.slice(0, -1)}Q` })).toMatchObject([{ code: 'sheet-code' }]);
    expect(await refusal({ sheet: code!, recipe: '1 g potassium-nitrate in 4 L' })).toMatchObject([
      { code: 'beside-recipe' },
    ]);
  });

  it('what is really in the can, and what it holds, stay --measured and --brim', async () => {
    const { code } = await sheetFor({ mix: '8 L' });
    const told = await judged({ sheet: code!, measured: '9 L', brim: '10 L' });
    expect(told).toMatchObject({ litres: 9, plannedLitres: 8, capacityLitres: 10 });
  });

  it('a batch of more than 31 items is not coded', () => {
    const items = Array.from({ length: 32 }, (_, i) => ({ id: `${i}`, amount: 1, tool: 'scale' as const }));
    expect(isCodable({ feed: 'x', litres: 1, items, beforeFull: 0, waters: [] })).toBe(false);
  });
});
