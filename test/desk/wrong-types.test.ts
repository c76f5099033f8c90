import { afterEach, beforeEach, describe, expect, it } from 'vitest';
import * as velamen from '../../src/index.js';

/** Questions of the library that take texts and wishes. */
const QUESTIONS = {
  assessWords: velamen.assessWords,
  blendFeeds: velamen.blendFeeds,
  buyFor: velamen.buyFor,
  substitutesFor: velamen.substitutesFor,
  concentrateFeed: velamen.concentrateFeed,
  frontierOf: velamen.frontierOf,
  judgeReading: velamen.judgeReading,
  labelsOf: velamen.labelsOf,
  mixingSheets: velamen.mixingSheets,
  openBench: velamen.openBench,
  reachOf: velamen.reachOf,
  weighSpoonByPen: velamen.weighSpoonByPen,
} as const;

/** Steps and reports of the library. */
const STEPS = {
  blend: velamen.blend,
  checkPenWithStandard: velamen.checkPenWithStandard,
  closeShelf: velamen.closeShelf,
  densityOnShelf: velamen.densityOnShelf,
  dosesOfFeed: velamen.dosesOfFeed,
  frontierSvg: velamen.frontierSvg,
  jsonOf: velamen.jsonOf,
  jsonSchema: velamen.jsonSchema,
  labelHtml: velamen.labelHtml,
  labelText: velamen.labelText,
  mixingSheet: velamen.mixingSheet,
  pageOf: velamen.pageOf,
  problemLine: velamen.problemLine,
  programmesOf: velamen.programmesOf,
  renderCsv: velamen.renderCsv,
  renderHtml: velamen.renderHtml,
  renderText: velamen.renderText,
  reportOf: velamen.reportOf,
  sheetCsv: velamen.sheetCsv,
  sheetHtml: velamen.sheetHtml,
} as const;
/** A list of nothing is a list. */
const LISTS = ['closeShelf', 'labelHtml', 'labelText', 'renderHtml', 'sheetHtml'];

const JUNK = [undefined, null, 7, 'text', [], true, () => 1, Symbol('s'), 10n];

describe('callers without types', () => {
  const orphans: unknown[] = [];
  const note = (reason: unknown) => orphans.push(reason);
  beforeEach(() => process.on('unhandledRejection', note));
  afterEach(() => process.off('unhandledRejection', note));

  it.each(Object.entries(QUESTIONS))('%s refuses what it cannot take, all at once', async (_, ask) => {
    const call = ask as unknown as (...args: unknown[]) => Promise<unknown>;
    for (const junk of JUNK) {
      await expect(call(junk, {})).rejects.toBeInstanceOf(velamen.Refusal);
      await expect(call({}, junk)).rejects.toBeInstanceOf(velamen.Refusal);
      await expect(call({ shelf: junk ?? 1 }, {})).rejects.toBeInstanceOf(velamen.Refusal);
    }
    const both: velamen.Refusal = await call(
      { shelf: 'id,form', bench: 5 },
      { strength: 80, water: 'rain', prices: 'yes', plnats: 'x' },
    ).then(
      () => undefined as never,
      (fault: velamen.Refusal) => fault,
    );
    expect(both).toBeInstanceOf(velamen.Refusal);
    expect(both.problems.map((p: velamen.Problem) => p.where.field)).toEqual([
      'files.bench',
      'files.shelf',
      'wishes.strength',
      'wishes.water',
      'wishes.prices',
      'wishes.plnats',
    ]);
    await new Promise((done) => setTimeout(done, 5));
    expect(orphans).toEqual([]);
  });

  it.each(Object.entries(STEPS))('%s refuses what is of another type', async (name, step) => {
    const call = step as unknown as (...args: unknown[]) => unknown;
    for (const junk of JUNK) {
      if (Array.isArray(junk) && LISTS.includes(name)) continue;
      const refused = (async () => call(junk, junk, junk, junk))();
      await expect(refused).rejects.toBeInstanceOf(velamen.Refusal);
    }
    await expect((async () => call({}, {}, {}, {}))()).rejects.toBeInstanceOf(velamen.Refusal);
  });

  it('refuses a catalog that is none, and a result that has no name', async () => {
    await expect(velamen.blendFeeds({}, {}, {} as never)).rejects.toBeInstanceOf(velamen.Refusal);
    expect(() => velamen.jsonOf('constructor' as never, {} as never)).toThrow(velamen.Refusal);
    expect(() => velamen.reportOf('blnd' as never, {} as never)).toThrow(/Did you mean blend\?/);
  });

  it('reads no text that is none', () => {
    for (const junk of JUNK) {
      for (const read of [
        velamen.readProducts(junk as never, 'shelf.csv'),
        velamen.readBench(junk as never, 'bench.yaml', velamen.shippedCatalog()),
      ]) {
        expect(read.ok).toBe(false);
      }
    }
  });
});
