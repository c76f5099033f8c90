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
