import { readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { renderText } from '../../src/report/text.js';
import { reportOf } from '../../src/report/report-of.js';
import { seeds } from '../seeds.js';
import { dice as diceOf } from '../solver/dice.js';
import { jsonOf } from '../../src/report/json-of.js';

const kitchens = fileURLToPath(new URL('../golden/kitchens/', import.meta.url));
const shelf = { name: 'salts.csv', text: readFileSync(join(kitchens, 'salts.csv'), 'utf8') };
const bench = (kit: string, feed: string, more = '') => ({
  bench: {
    name: 'bench.yaml',
    text: `water: { use: rain }\nkit: ${kit}\n${more}feeds:\n  orchids: { plants: moth orchids, medium: bark, phase: growth, strength: 75 %, ${feed} }\n`,
  },
  shelf,
});

interface Told {
  status: string;
  litres: number;
  feed: { batchLitres: number };
  steps: { id: string; grams: number; measures: { words: string }[] }[];
  wayOut: {
    kind: string;
    says: string;
    bottles: { product: string; words: string; amount: number; bottleMillilitres: number; doseMillilitres: number }[];
    without: { share: number };
    others: string[];
  } | null;
}

const sheetOf = async (files: ReturnType<typeof bench>, wishes: Wishes = {}): Promise<Told & { met: boolean }> => {
  const { results, met } = await mixingSheets(files, wishes);
  return { ...(jsonOf('sheet', results[0]!) as Told), met };
};

/** A batch that the kit alone cannot make, and what is chosen for it. */
describe('a way out', () => {
  it('is a bottle of what is too little, in the steps of a pipette; blend gives the same', async () => {
    const files = bench('{ scale: 0.1 g, syringe: 3 mL }', 'batch: 1 US gal');
    const few = { without: ['trace-mix'] };
    const sheet = await sheetOf(files, few);
    expect(sheet).toMatchObject({ status: 'kept', met: true, wayOut: { kind: 'item stock' } });
    const { bottles, without } = sheet.wayOut!;
    expect(without.share).toBeLessThan(0.75);
    for (const { product, words, amount, bottleMillilitres, doseMillilitres } of bottles) {
      const step = sheet.steps.find(({ id }) => id === product)!;
      // whole steps of the scale into the bottle, whole marks of the pipette out of it
      expect(words).toMatch(/^\d+\.\d g$/);
      expect(Math.abs(doseMillilitres * 10 - Math.round(doseMillilitres * 10))).toBeLessThan(1e-6);
      expect(step.grams).toBeCloseTo((Number.parseFloat(words) / bottleMillilitres) * doseMillilitres, 9);
      expect(amount).toBeCloseTo(Number.parseFloat(words), 9);
    }
    const { results } = await blendFeeds(files, few);
    const blend = jsonOf('blend', results[0]!) as { items: { id: string; measures: { words: string }[] }[] };
    expect(blend.items.map(({ id, measures }) => [id, measures[0]!.words])).toEqual(
      sheet.steps.map(({ id, measures }) => [id, measures[0]!.words]),
    );
  });

  it('is double the amount where a week uses it up and a can holds it, the bottles told beside it', async () => {
    const double = await sheetOf(bench('{ scale: 0.1 g, cans: [10 L] }', 'batch: 4 L, weekly: 20 L'));
    expect(double).toMatchObject({ status: 'kept', litres: 8, feed: { batchLitres: 8 }, wayOut: { kind: 'batch' } });
    expect(double.wayOut!.says).toMatch(/^Mixed double: 8 L instead of 4 L/);
    expect(double.wayOut!.others.every((says) => !says.includes('Mix double'))).toBe(true);
  });

  it('is none where the kit does', async () => {
    expect((await sheetOf(bench('{ scale: 0.01 g }', 'batch: 10 L'))).wayOut).toBeNull();
  });

  it('asks for ten level spoons, in one line with the command, where nobody knows what they weigh', async () => {
    const untold = { name: 'salts.csv', text: shelf.text.replace('0.7,0.06,0.8,iron', '0.7,0.06,,iron') };
    const files = { ...bench('{ spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp] }', 'batch: 1 US gal'), shelf: untold };
    const [sheet] = (await mixingSheets(files, {})).results;
    const asks = '  velamen meter --weigh "ten level 1/4 US tsp of trace-mix weigh __ g" --save';
    expect(renderText(reportOf('sheet', sheet!), { columns: 60, colour: false }).split('\n')).toContain(asks);
  });

  it('is up to four times the batch where two weeks use it up and nothing else does', async () => {
    const sheet = await sheetOf(bench('{ scale: 0.1 g }', 'batch: 1.5 L, weekly: 3 L'));
    expect(sheet).toMatchObject({ status: 'kept', wayOut: { kind: 'batch' } });
    expect([4.5, 6]).toContain(sheet.litres);
    expect(sheet.wayOut!.says).toMatch(/^Mixed for several times: [\d.]+ L instead of 1.5 L/);
  });

  it('is none where no week uses it up: the larger batch is told with its cans, and no recipe is printed', async () => {
    const { results } = await blendFeeds(bench('{ scale: 0.1 g }', 'batch: 1 L, weekly: 0.5 L'), {});
    const text = renderText(reportOf('blend', results[0]!), { columns: 200, colour: false });
    expect(text).not.toContain('What goes in');
    expect(text).toContain('What comes nearest; not to be fed');
    expect(text).toMatch(/It would help to take .*a batch of [34] L \(\d+ of 100\)/);
  });

  it('or none: sheet and blend tell the same doses in the same order, on seeded kitchens', async () => {
    const dice = diceOf(8);
    const amount = (): string => dice.pick(['1 US gal', '2 US gal', '10 L', '6 L', '1.5 imperial gal']);
    for (let kitchen = 0; kitchen < seeds(3, 6); kitchen += 1) {
      const kit = dice.pick([
        '{ scale: 0.01 g }',
        '{ scale: 0.01 g, syringe: 5 mL }',
        '{ scale: 0.02 g, spoons: [1/4 tsp] }',
      ]);
      const files = bench(kit, `batch: ${amount()}, weekly: ${dice.whole(1, 20)} L`);
      const sheet = await sheetOf(files);
      const { results } = await blendFeeds(files, {});
      const blend = jsonOf('blend', results[0]!) as { items: { id: string; measures: { words: string }[] }[] };
      expect(blend.items.map(({ id, measures }) => [id, measures[0]!.words])).toEqual(
        sheet.steps.map(({ id, measures }) => [id, measures[0]!.words]),
      );
    }
  });
});
