import { describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { buyFor, substitutesFor } from '../../src/desk/buy.js';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { frontierOf } from '../../src/desk/frontier.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { oneForBench } from '../../src/desk/one.js';
import { reachOf } from '../../src/desk/reach.js';
import { type Problem, Refusal } from '../../src/problem.js';
import { blendShape } from '../../src/report/blend-shapes.js';
import { unfedJson, unfedSheet } from '../../src/report/unfed.js';
import { SHELVES } from '../nutrition/shelves.js';

const feed = (name: string, plants: string, phase: string): string =>
  `  ${name}: { plants: ${plants}, medium: bark, phase: ${phase}, batch: 5 L, weekly: 5 L }\n`;
const bench = (...feeds: string[]) => ({
  bench: {
    name: 'bench.yaml',
    text: `water: { use: rain }\nkit: { scale: 0.01 g, syringe: 1 mL }\nfeeds:\n${feeds.join('')}`,
  },
  shelf: { name: 'shelf.csv', text: SHELVES['plain salts'] },
});
const CANES = feed('canes', 'nobile', 'winter');
const ALONE = bench(CANES);
const BESIDE = bench(CANES, feed('moths', 'orchids', 'growth'));
const SENTENCE =
  /^Do not feed: water plainly from when the canes have ripened .* to when flower buds show on the canes .*\.$/;

/** What a question is refused for, in words. */
const refusal = (asked: Promise<unknown>): Promise<Problem[]> =>
  asked.then(
    () => [],
    (fault: unknown) => {
      if (fault instanceof Refusal) return fault.problems.filter(({ severity }) => severity === 'error');
      throw fault;
    },
  );

describe('plants that rest without feed', () => {
  it('are answered by blend in a sentence, published as it says, and met', async () => {
    const { met, results, unfed, warnings } = await blendFeeds(ALONE, {});
    expect([met, results, warnings]).toEqual([true, [], []]);
    const json = blendShape.parse(unfedJson(unfed[0]!));
    expect(json.status).toBe('unfed');
    expect('says' in json && json.says).toMatch(/^Do not feed\. Water plainly from when the canes have ripened/);
    expect(unfedSheet(unfed[0]!).title).toBe('canes: do not feed');
  });

  it.each([
    ['sheet', () => mixingSheets(ALONE, {})],
    ['meter', () => judgeReading(ALONE, { reading: ['0.8'] })],
    ['reach', () => reachOf(ALONE, {})],
    ['frontier', () => frontierOf(ALONE, {})],
    ['concentrate', () => concentrateFeed(ALONE, {})],
    ['one', () => oneForBench(ALONE, {})],
    ['buy', () => buyFor(ALONE, { weeks: '10' })],
    ['buy instead of', () => substitutesFor(ALONE, { insteadOf: 'mkp' })],
  ])('are refused by %s with that sentence', async (_, ask) => {
    const found = (await refusal(ask())).filter(({ code }) => code === 'do-not-feed');
    expect(found).toHaveLength(1);
    expect(found[0]!.fix).toMatch(SENTENCE);
  });

  it.each([
    ['sheet', async () => named(await mixingSheets(BESIDE, {}))],
    ['reach', async () => named(await reachOf(BESIDE, {}))],
    [
      'one',
      async () => {
        const { result, warnings } = await oneForBench(BESIDE, {});
        return {
          warnings,
          feeds: result.mixes.flatMap(({ cans }) => cans.map(({ sharing }) => sharing.request.header.name)),
        };
      },
    ],
    [
      'buy',
      async () => {
        const { result, warnings } = await buyFor(BESIDE, { weeks: '10' });
        return { warnings, feeds: result.plan.map(({ feed: { name } }) => name) };
      },
    ],
  ])('are left out by %s with a word, where others are fed', async (_, ask) => {
    const { warnings, feeds } = await ask();
    expect(feeds).toEqual(['moths']);
    expect(warnings.map(({ code, severity }) => [code, severity])).toContainEqual(['do-not-feed', 'warning']);
    expect(warnings.find(({ code }) => code === 'do-not-feed')!.fix).toMatch(SENTENCE);
  });

  it('stand beside the blends of the others', async () => {
    const { met, results, unfed } = await blendFeeds(BESIDE, {});
    expect(met).toBe(true);
    expect(results.map(({ status }) => status)).toEqual(['made']);
    expect(unfed.map(({ feed: { name } }) => name)).toEqual(['canes']);
  });

  it('carnivorous plants: all year, in every phase', async () => {
    for (const phase of ['growth', 'bloom', 'rest']) {
      const wishes = { plants: 'pitcher plants', medium: 'moss', phase };
      const { unfed } = await blendFeeds({ shelf: ALONE.shelf }, wishes);
      expect(unfedJson(unfed[0]!).says).toBe('Do not feed. Water plainly all year.');
    }
  });

  it('nobile-type dendrobiums are fed again in growth', async () => {
    const { results, unfed } = await blendFeeds(bench(feed('canes', 'dendrobium nobile', 'summer')), {});
    expect([results.length, unfed]).toEqual([1, []]);
  });
});

function named({ results, warnings }: { results: readonly object[]; warnings: readonly Problem[] }) {
  return { warnings, feeds: results.map((result) => JSON.stringify(result).match(/"name":"(moths|canes)"/)![1]) };
}
