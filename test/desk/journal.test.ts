import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { entryFor } from '../../src/desk/journal/add.js';
import { undoing } from '../../src/desk/journal/undo.js';
import { costOfJournal, potsOfJournal, showJournal, stockOf } from '../../src/desk/journal/views.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { openBench } from '../../src/desk/open-bench.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { type Problem, Refusal } from '../../src/problem.js';
import { journalEntrySheet, journalSheet } from '../../src/report/journal.js';
import { renderText } from '../../src/report/text.js';
import { withEntry } from '../../src/year/journal/write.js';
import { exampleFiles } from './benches.js';

const BENCH = exampleFiles('moss-without-ammonium');
const DAY = '2026-11-28';
const SCREEN = { columns: 400, colour: false, full: false };

/** The bench with an entry more, as a page keeps it: text in, text out. */
async function added(files: BenchFiles, wishes: Wishes): Promise<BenchFiles> {
  const { result } = await entryFor(files, wishes, DAY);
  return {
    ...files,
    journal: { name: 'journal.csv', text: withEntry(files.journal?.text ?? '', result.draft, 'j').text },
  };
}

function undone(files: BenchFiles, entry: string): BenchFiles {
  const { result } = undoing(files, {}, entry, DAY);
  return { ...files, journal: { name: 'journal.csv', text: withEntry(files.journal!.text, result.draft, 'j').text } };
}

async function refusedBy(work: () => unknown): Promise<readonly Problem[]> {
  try {
    await work();
  } catch (fault) {
    if (fault instanceof Refusal) return fault.problems;
    throw fault;
  }
  return [];
}

const leftOf = (files: BenchFiles, id: string): number | null =>
  stockOf(files, {}).result.lines.find((line) => line.id === id)!.left;

describe('the journal of a bench', () => {
  it('takes a batch off the stock by the code of its sheet, for every command', async () => {
    const { results } = await mixingSheets(BENCH, { oneFeedFor: ['json'] });
    const [sheet] = results;
    if (sheet?.status !== 'kept' || sheet.code === null) throw new Error('a sheet with a code is expected');
    const after = await added(BENCH, { sheet: sheet.code, reading: ['0.24'], ph: '6.2', note: 'first' });
    for (const { id, grams, millilitres } of sheet.steps) {
      const was = (await openBench(BENCH, {})).shelf.products.find((product) => product.id === id)!.onHand!;
      const now = (await openBench(after, {})).shelf.products.find((product) => product.id === id)!.onHand!;
      expect(was - now).toBeCloseTo(grams ?? millilitres!, 6);
      expect(leftOf(after, id)).toBeCloseTo(now, 9);
    }
    const { draft, within } = (await entryFor(BENCH, { sheet: sheet.code, reading: ['0.24'] }, DAY)).result;
    expect(within).toBe(true);
    expect(draft).toMatchObject({ kind: 'batch', feed: 'moss', litres: 4, date: DAY, reading: 0.24, currency: 'EUR' });
    expect(draft.expected).toBeCloseTo(sheet.end.reading.mSPerCm, 6);
    expect(draft.low).toBeCloseTo(sheet.end.reading.low, 6);
    // undone, everything stands where it stood; undone again, it is taken off again
    const back = undone(after, '1');
    expect(leftOf(back, sheet.steps[0].id)).toBe(
      leftOf(await added(BENCH, { standard: '1.413', reads: '700' }), sheet.steps[0].id),
    );
    const [again, once] = [undone(back, '2'), after].map((files) => leftOf(files, sheet.steps[0].id));
    expect(again).toBe(once);
    expect(showJournal(back, {}).result.feeds).toEqual([]);
    expect(showJournal(undone(back, '2'), {}).result.feeds[0]!.points).toHaveLength(1);
  });

  it('counts what was really used, bought and counted', async () => {
    let files = await added(BENCH, { feed: 'moss', used: ['2 g sample-calcium', '3 mL sample-kelp'] });
    expect(leftOf(files, 'sample-calcium')).toBe(278);
    expect(leftOf(files, 'sample-kelp')).toBe(117);
    files = await added(files, { bought: ['500 g sample-calcium'], paid: '10.9 EUR' });
    expect(leftOf(files, 'sample-calcium')).toBe(778);
    files = await added(files, { counted: ['700 g sample-calcium + 0 mL sample-kelp'] });
    expect([leftOf(files, 'sample-calcium'), leftOf(files, 'sample-kelp')]).toEqual([700, 0]);
    // what was counted stays counted, whatever is undone of before
    files = undone(files, '1');
    expect([leftOf(files, 'sample-calcium'), leftOf(files, 'sample-kelp')]).toEqual([700, 0]);
    files = undone(files, '3');
    expect([leftOf(files, 'sample-calcium'), leftOf(files, 'sample-kelp')]).toEqual([780, 120]);
    const [euro] = costOfJournal(files, {}).result.currencies;
    expect(euro).toMatchObject({ currency: 'EUR', paid: 10.9, total: { batches: 0, cost: 0 } });
  });

  it('takes a product of which the shelf says no more than its name', async () => {
    const shelf = {
      name: 'shelf.csv',
      text: 'id,form,basis,N,on_hand\nsample-base,powder,,6,500 g\nown,liquid,w/v,2,\n',
    };
    const files = await added({ shelf }, { bought: ['200 g sample-base', '1 L own'] });
    expect(leftOf(files, 'sample-base')).toBe(700);
    expect(leftOf(files, 'own')).toBeNull();
    expect(leftOf(await added(files, { counted: ['250 mL own'] }), 'own')).toBe(250);
  });

  it('keeps a recipe, readings on the way and a sheet that was added twice', async () => {
    const wishes = {
      recipe: '1 g sample-calcium + 1 g sample-base in 4 L',
      reading: ['1: 0.02', 'end: 240 ppm'],
      feed: 'moss',
    };
    const { draft } = (await entryFor(BENCH, wishes, DAY)).result;
    expect(draft).toMatchObject({ reading: 0.48, steps: [{ step: 1, mSPerCm: 0.02 }], sheet: '' });
    expect(draft.items.map(({ id, amount }) => [id, amount])).toEqual([
      ['sample-calcium', 1],
      ['sample-base', 1],
    ]);
    const sheet = '01H6-6CJQ-ZJ6A-38KE-NV30-AB8G-Z0S1-4G2B';
    const once = await added(BENCH, { sheet, measured: '8 L' });
    expect(showJournal(once, {}).result.entries[0]).toMatchObject({ litres: 8, sheet });
    expect((await entryFor(once, { sheet: sheet.toLowerCase() }, DAY)).warnings.map(({ code }) => code)).toContain(
      'batch-twice',
    );
    expect((await entryFor(once, { sheet, on: '2026-11-29' }, DAY)).warnings.map(({ code }) => code)).not.toContain(
      'batch-twice',
    );
  });

  it('is told of a pen by what it should show', async () => {
    const { draft } = (await entryFor(BENCH, { standard: '1413 µS', reads: '650' }, DAY)).result;
    expect(draft).toMatchObject({ kind: 'standard', reading: 1.3, expected: 1.413, items: [] });
  });

  it('tells a pot by its run-off: flush, how much, when to go on', async () => {
    expect((await refusedBy(() => entryFor(BENCH, { pot: 'a', reading: ['0.5'] }, DAY)))[0]).toMatchObject({
      code: 'fed-missing',
    });
    expect((await refusedBy(() => entryFor(BENCH, { pot: 'a', fed: '0.3' }, DAY)))[0]).toMatchObject({
      code: 'pot-reading',
    });
    let files = await added(BENCH, { feed: 'moss', reading: ['0.25'] });
    files = await added(files, { pot: 'Window 3', reading: ['300 ppm'], holds: '0.5 L' });
    files = await added(files, { pot: 'b', reading: ['0.3'], fed: '0.4' });
    const told = () => potsOfJournal(files, {}).result.pots;
    expect(told()).toMatchObject([
      {
        pot: 'Window 3',
        medium: 'sphagnum',
        runOff: 0.6,
        fed: 0.25,
        buildUp: 2.4,
        standing: 'flush',
        flushLitres: 1,
        goOnAt: 0.3,
      },
      { pot: 'b', fed: 0.4, standing: 'go on', flushLitres: null, potVolumes: 2 },
    ]);
    expect(told()[0]!.support!.evidence).toBe('grower practice');
    // flushed and read again, by a name in other letters; what it holds is remembered
    files = await added(files, { pot: 'window 3', reading: ['0.29'] });
    expect(potsOfJournal(files, { pot: 'WINDOW 3' }).result.pots).toMatchObject([
      { standing: 'go on', holds: 0.5, points: [{}, {}] },
    ]);
    files = await added(files, { pot: 'window 3', reading: ['0.35'] });
    expect(told()[0]!.standing).toBe('look again');
    expect(potsOfJournal(files, { pot: 'c' }).result.pots).toEqual([]);
  });

  it('narrows sheet and meter after three good batches, and starts anew for another shelf', async () => {
    const spoons = exampleFiles('spoons-alone');
    const sheetOf = async (files: BenchFiles) => {
      const [sheet] = (await mixingSheets(files, {})).results;
      if (sheet === undefined || sheet.status === 'cannot') throw new Error('a sheet is expected');
      return sheet;
    };
    const plain = await sheetOf(spoons);
    const sheet = plain.code!;
    let files = spoons;
    for (const reading of ['1', '1.01']) files = await added(files, { sheet, reading: [reading] });
    expect((await sheetOf(files)).learned).toBeNull();
    files = await added(files, { sheet, reading: ['0.99'] });
    const own = await sheetOf(files);
    const { low, high, mSPerCm } = own.end.reading;
    expect(own.learned).toMatchObject({ batches: 3, from: DAY, predicted: plain.end.reading });
    expect(high - low).toBeLessThan(0.6 * (plain.end.reading.high - plain.end.reading.low));
    expect(mSPerCm).toBeGreaterThan(plain.end.reading.mSPerCm);
    expect(mSPerCm).toBeLessThan(1);
    const judged = (await judgeReading(files, { sheet, reading: ['1'] })).result;
    const [line] = judged.judgement.readings;
    expect(line!.expected.low).toBeCloseTo(low, 4);
    expect(line!.expected.high).toBeCloseTo(high, 4);
    expect(judged.notes).toContainEqual({ kind: 'learned', batches: 3, from: DAY, to: DAY });
    // an undone batch teaches nothing, nor does one that is off
    expect((await sheetOf(await added(undone(files, '2'), { sheet, reading: ['1.4'] }))).learned).toBeNull();
  });

  it('says what to do where there is none, or nothing in it', async () => {
    for (const journal of [undefined, { name: 'journal.csv', text: '' }, { name: 'journal.csv', text: '\n' }])
      for (const ask of [showJournal, stockOf, costOfJournal]) {
        const files = journal ? { ...BENCH, journal } : BENCH;
        const [problem] = await refusedBy(() => ask(files, {}));
        expect(problem).toMatchObject({ code: 'no-journal', fix: expect.stringContaining('journal add') });
      }
    const one = await added(BENCH, { counted: ['3 g sample-base'] });
    expect((await refusedBy(() => undoing(one, {}, '2', DAY)))[0]).toMatchObject({ code: 'entry-number' });
    expect((await refusedBy(() => undoing(undone(one, '1'), {}, '1', DAY)))[0]).toMatchObject({
      code: 'undone-already',
    });
  });

  it('refuses what cannot be, all at once, and a line that cannot be read wherever stock is asked for', async () => {
    const codes = (problems: readonly Problem[]) => problems.map(({ code }) => code);
    expect(codes(await refusedBy(() => entryFor(BENCH, {}, DAY)))).toContain('nothing-to-add');
    expect(
      codes(
        await refusedBy(() => entryFor(BENCH, { counted: ['3 g nothing'], ph: '15', on: '28.11.', paid: '3' }, DAY)),
      ),
    ).toEqual(['two-entries', 'two-entries', 'date', 'recipe-product']);
    const bad = {
      ...BENCH,
      journal: { name: 'journal.csv', text: 'entry,date,kind,items\n1,2026-01-01,batch,x g base\n' },
    };
    for (const ask of [() => openBench(bad, {}), () => stockOf(bad, {}), () => entryFor(bad, { feed: 'moss' }, DAY)])
      expect(await refusedBy(ask)).toMatchObject([{ code: 'entry-items', where: { file: 'journal.csv', line: 2 } }]);
  });

  it('speaks as the pen of the bench does, and tells of a pot at once', async () => {
    const bench = BENCH.bench!;
    const scaled = `pen: { scale: 500 }\n${bench.text.replace(/^pen:.*\n/m, '')}`;
    const files = await added({ ...BENCH, bench: { ...bench, text: scaled } }, { feed: 'moss', reading: ['120 ppm'] });
    // the file keeps mS/cm
    expect(files.journal!.text).toContain(',0.24,');
    const shown = renderText(journalSheet(showJournal(files, {}).result), SCREEN);
    expect(shown).toContain('readings, ppm (500 scale)');
    expect(shown).toMatch(/moss +4 +120 /);
    expect(shown).not.toContain('mS/cm');
    const wishes = { pot: 'window 3', feed: 'moss', reading: ['250 ppm'], holds: '0.5 L' };
    const { result } = await entryFor(files, wishes, DAY);
    expect(result.stands).toMatchObject({ standing: 'flush', holds: 0.5 });
    const told = renderText(journalEntrySheet({ ...result, entry: 2 }), SCREEN);
    expect(told).toMatch(/The pot holds +500 mL/);
    expect(told).toContain('250 ppm (500 scale); it is fed 120');
    expect(told).toContain('salts build up. Flush with');
    expect(told).not.toMatch(/Litres|mS\/cm/);
    // what it holds is remembered
    const twice = await added(files, wishes);
    expect((await entryFor(twice, { ...wishes, holds: undefined }, DAY)).result.stands).toMatchObject({ holds: 0.5 });
    expect(potsOfJournal(twice, {}).result.scale).toBe(500);
  });
});
