import { describe, expect, it } from 'vitest';
import { amountFor } from '../../src/can/amount-for-reading.js';
import { likelyEc, type Part } from '../../src/can/part.js';
import type { Given } from '../../src/blend/given-types.js';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { openBench } from '../../src/desk/open-bench.js';
import { linearRules } from '../../src/feed/request.js';
import { contentOf, waterContent } from '../../src/feed/terms.js';
import type { MixingSheet } from '../../src/sheet/sheet-types.js';
import { dice } from '../solver/dice.js';
import { exampleFiles } from './benches.js';

/** An example bench with its scale taken away. */
function withoutScale(folder: string): BenchFiles {
  const files = exampleFiles(folder);
  const text = files.bench!.text.replace(/, scale: [\d.]+ g/, '');
  expect(text).not.toBe(files.bench!.text);
  return { ...files, bench: { ...files.bench!, text } };
}

/** Box and Muller. */
const normal = (d: ReturnType<typeof dice>): number =>
  Math.sqrt(-2 * Math.log(1 - d.unit())) * Math.cos(2 * Math.PI * d.unit());

const CANS = 300;
/** A pen good to 2 % (common practice, no source): half of its variance once for a can, half with each dip. */
const PEN = 0.02 * Math.SQRT1_2;
/** Hands, from memory: a can filled to within 2 %, a level spoon within 10 %, a jar as strong as its label within 2 %. */
const [FILL, SPOON, JAR] = [0.02, 0.1, 0.02];

/**
 * Cans of a hundred that keep every limit that the sheet's own doses keep, mixed by somebody who knows nothing but the words of the sheet: all
 * the water, then more of each item until a pen that is off shows the figure, anywhere within the tolerance that is told.
 */
async function kept(files: BenchFiles, sheet: MixingSheet): Promise<number> {
  const { requests } = await openBench(files, { feed: sheet.feed.name });
  const [request] = requests;
  const { programme, waters, shelf } = request!;
  const blend = waters.map((water) => ({ water, share: 1 / waters.length }));
  const scale = sheet.pen === 'EC' ? 1 : sheet.pen;
  const limitsOf = (parts: readonly Part[]): Map<string, number> => {
    const mg = (nutrient: Parameters<typeof waterContent>[1]): number =>
      parts.reduce((sum, { product, perLitre }) => {
        return sum + perLitre * (contentOf(product, nutrient).stated ?? 0);
      }, 0) + blend.reduce((sum, { water, share }) => sum + share * waterContent(water, nutrient), 0);
    const room = new Map<string, number>();
    for (const [nutrient, { min, max }] of Object.entries(programme.bands)) {
      const held = mg(nutrient as Parameters<typeof mg>[0]);
      if (min !== undefined) room.set(`${nutrient} least`, held - min);
      if (max !== undefined) room.set(`${nutrient} most`, max - held);
    }
    for (const rule of linearRules(request!)) {
      const terms = Object.entries(rule.terms) as [Parameters<typeof mg>[0], number][];
      const held = terms.reduce((sum, [nutrient, times]) => sum + times * mg(nutrient), 0);
      if (rule.upper !== undefined) room.set(`${rule.text} most`, rule.upper + 1e-6 - held);
      if (rule.lower !== undefined) room.set(`${rule.text} least`, held - rule.lower + 1e-6);
    }
    return room;
  };
  const product = (id: string) => shelf.find((one) => one.id === id)!;
  const meant = limitsOf(
    sheet.steps.map((step) => ({
      product: product(step.id),
      perLitre: (step.millilitres ?? step.grams)! / sheet.litres,
    })),
  );
  const d = dice(7);
  let good = 0;
  for (let can = 0; can < CANS; can += 1) {
    const [gain, full] = [1 + PEN * normal(d), 1 + FILL * normal(d)];
    const parts: Part[] = [];
    for (const step of sheet.steps) {
      const jar = 1 + JAR * normal(d);
      const dose = (step.millilitres ?? step.grams)! / sheet.litres;
      const put = (perLitre: number): Part => ({ product: product(step.id), perLitre });
      if (step.byPen?.by !== 'pen') {
        parts.push(put((jar * dose * (1 + SPOON * normal(d))) / full));
        continue;
      }
      const { until, tolerance } = step.byPen;
      const stop = (until + tolerance * (2 * d.unit() - 1)) / scale;
      const dip = 1 + PEN * normal(d);
      const reads = (perLitre: number): number => likelyEc([...parts, put(perLitre)], blend) * gain * dip - stop;
      const { kind, amount } = amountFor(reads, 4 * dose, dose);
      parts.push(put(kind === 'found' ? amount : 0));
    }
    const room = limitsOf(parts);
    if ([...room].every(([limit, left]) => left >= 0 || meant.get(limit)! < 0)) good += 1;
  }
  return (100 * good) / CANS;
}

const FEEDS = [
  ['moss-without-ammonium', 'moss'],
  ['what-the-shelf-reaches', 'cattleyas'],
  ['what-the-shelf-reaches', 'winter'],
] as const;

describe('by the pen, without a scale', () => {
  it.each(FEEDS)('%s, %s: at least 90 of 100 cans keep the limits, by a count of its own', async (folder, feed) => {
    const files = withoutScale(folder);
    const [sheet] = (await mixingSheets(files, { feed, by: 'pen' })).results;
    if (sheet?.status !== 'kept') throw new Error(sheet?.status);
    expect(sheet.steps.some((step) => step.byPen?.by === 'pen')).toBe(true);
    expect(sheet.sure!.share).toBeGreaterThanOrEqual(0.9);
    expect(await kept(files, sheet)).toBeGreaterThanOrEqual(90);
    for (const { byPen, measures, borrowed } of sheet.steps) {
      expect(borrowed).toBe(false);
      if (byPen?.by === 'pen') expect(measures[0].words).toContain(`until ${byPen.until} ${byPen.unit}`);
    }
  });

  it('unasked where the bench names a pen and nothing in its kit measures a powder; never where that is not wanted', async () => {
    const files = withoutScale('moss-without-ammonium');
    const [unasked] = (await mixingSheets(files, { feed: 'moss' })).results;
    const [asked] = (await mixingSheets(files, { feed: 'moss', by: 'pen' })).results;
    if (unasked?.status !== 'kept' || asked?.status !== 'kept') throw new Error('no sheet');
    // the same sheet, which says why the pen was taken where nobody named it
    expect(unasked.given?.wayOut?.way.kind).toBe('pen');
    expect({ ...unasked, given: { ...unasked.given, wayOut: asked.given!.wayOut } }).toEqual(asked);
    const [measured] = (await mixingSheets(files, { feed: 'moss', by: 'measure' })).results;
    if (measured?.status === 'cannot' || measured === undefined) throw new Error('no sheet');
    expect(measured.steps.every(({ byPen }) => byPen === null)).toBe(true);
    const [own] = (await mixingSheets(exampleFiles('moss-without-ammonium'), { feed: 'moss' })).results;
    expect(own?.status === 'kept' && own.steps.every(({ byPen }) => byPen === null)).toBe(true);
  });

  it('blend gives the same feed, and meter expects the reading to stop at', async () => {
    const files = withoutScale('moss-without-ammonium');
    const [sheet] = (await mixingSheets(files, { feed: 'moss', by: 'pen' })).results;
    if (sheet?.status !== 'kept') throw new Error(sheet?.status);
    const [result] = (await blendFeeds(files, { feed: 'moss', by: 'pen' })).results;
    const plan = result && 'given' in result ? (result.given as Given).plan : null;
    expect(plan!.items.map(({ chosen }) => chosen.words)).toEqual(sheet.steps.map((s) => s.measures[0].words));
    const reading = `end: ${sheet.end.reading.pen} ppm`;
    const read = await judgeReading(files, { feed: 'moss', by: 'pen', reading: [reading] });
    expect(read.result.judgement.verdict).toBe('within');
  });
});
