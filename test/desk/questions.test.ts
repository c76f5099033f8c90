import { describe, expect, it } from 'vitest';
import { assessRecipe, assessWords, translateOthersAdvice } from '../../src/desk/assess.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { buyFor, substitutesFor } from '../../src/desk/buy.js';
import { checkPenWithStandard } from '../../src/desk/check-pen.js';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { densityOnShelf } from '../../src/desk/density-on-shelf.js';
import { frontierOf } from '../../src/desk/frontier.js';
import { labelsOf } from '../../src/desk/labels.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { programmesOf } from '../../src/desk/programmes.js';
import { reachOf } from '../../src/desk/reach.js';
import { weighSpoonByPen } from '../../src/desk/weigh-spoon.js';
import { exampleFiles, shelfFiles } from './benches.js';

const moss = exampleFiles('moss-without-ammonium');
const three = exampleFiles('what-the-shelf-reaches');

/** What a question is refused for. */
const refusal = (asked: Promise<unknown>) =>
  asked.then(
    () => [],
    (fault: { problems: { code: string }[] }) => fault.problems.map((p) => p.code),
  );

describe('what a grower asks of the desk', () => {
  it('labels: of a shelf, of the catalog, of one product; warnings about a product stand with it', async () => {
    const all = await labelsOf(moss, {});
    expect(all.result.shelf).toBe('shelf.csv');
    expect(all.warnings).toEqual([]);
    const one = await labelsOf({}, { catalog: true, products: ['potassium-nitrate'] });
    expect(one.result.products.map((line) => line.id)).toEqual(['potassium-nitrate']);
    expect(await refusal(labelsOf({}, { catalog: true, products: ['potasium-nitrate'] }))).toHaveLength(1);
  });

  it('blend: a result for each feed; several are refused where one is wanted; what clashes is told', async () => {
    expect((await blendFeeds(three, { closest: true })).results).toHaveLength(3);
    expect(await refusal(blendFeeds(three, { oneFeedFor: ['json'] }))).toEqual(['one-feed-in-json']);
    expect(await refusal(blendFeeds(moss, { prices: true, closest: true, atMost: '2' }))).toEqual([
      'options-clash',
      'options-clash',
    ]);
  });

  it('frontier: from the closest mix to the cheapest; a goal beside it is refused', async () => {
    const { met, results } = await frontierOf(moss, {});
    expect([met, results[0]!.status]).toEqual([true, 'made']);
    expect(await refusal(frontierOf(moss, { closest: true }))).toEqual(['options-clash']);
  });

  it('reach: against another shelf for one feed', async () => {
    const against = { name: 'other.csv', text: 'id,form,formula\nkn,powder,KNO3\n' };
    const found = await reachOf({ ...three, against }, { feed: 'winter' });
    expect([found.met, found.results.length, found.against?.shelf]).toEqual([true, 1, 'other.csv']);
    expect(await refusal(reachOf({ ...three, against }, {}))).toEqual(['one-feed']);
    expect(await refusal(reachOf(three, { all: true, feed: 'winter' }))).toEqual(['all-or-one']);
  });

  it('reach: which aims can be met, and what decides where one cannot', async () => {
    const { met, results } = await reachOf(three, { feed: 'winter', without: ['sample-fish'] });
    expect([met, results[0]!.status]).toEqual([true, 'together']);
    expect(results[0]!.elements.some((line) => line.aimReachable === true)).toBe(true);
    for (const line of results[0]!.elements)
      if (line.aimReachable === false) expect(line.decides, line.element).not.toBeNull();
    const moth = (await reachOf(three, { feed: 'moth-orchids' })).results[0]!;
    expect(moth.elements.find((line) => line.element === 'Ca')).toMatchObject({
      aimReachable: false,
      decides: { kind: 'only source', product: 'sample-calcium-chloride', limit: { rule: { text: 'Cl <= 20' } } },
    });
  });

  it('assess: a recipe is read as a recipe, advice as advice, and each by its own name', async () => {
    const recipe = '1 g sample-base in 4 L';
    expect((await assessWords(moss, { recipe })).about).toBe('recipe');
    expect((await assessWords(moss, { recipe: '100 ppm N' })).about).toBe('advice');
    expect((await assessRecipe(moss, { recipe })).result.status).toBe('outside');
    expect((await translateOthersAdvice({}, { recipe: 'EC 0.4' })).warnings).toEqual([]);
    expect(await refusal(assessRecipe(moss, { recipe: '100 ppm N' }))).not.toEqual([]);
    expect(await refusal(assessWords(moss, {}))).toEqual(['no-recipe']);
  });

  it('buy: without a clock the search runs to its end, and a time limit is refused', async () => {
    const bench = exampleFiles('what-to-buy');
    const { met, result } = await buyFor(bench, { feed: 'moss', weekly: '10 L' });
    expect([met, result.status]).toEqual([true, 'made']);
    expect(await refusal(buyFor(bench, { seconds: '5' }))).toEqual(['no-clock']);
    expect(await refusal(substitutesFor(bench, { insteadOf: 'nothing-like-it', budget: '5' }))).toContain(
      'not-with-instead-of',
    );
  });

  it('sheet: how much to mix has to be said by somebody', async () => {
    const bare = { ...shelfFiles('id,form,formula\nkn,powder,KNO3\n') };
    const wishes = { plants: 'fern', medium: 'bark', water: ['pure'] };
    expect(await refusal(mixingSheets(bare, wishes))).toEqual(['no-mix']);
    expect(await refusal(mixingSheets(bare, { ...wishes, mix: '3 kg' }))).toEqual(['volume']);
  });

  it('concentrate: a feed that cannot be made has no bottles', async () => {
    const salt = shelfFiles('id,form,formula\nsalt,powder,NaCl\n');
    const { met, results } = await concentrateFeed(salt, { plants: 'fern', medium: 'bark', water: ['pure'] });
    expect([met, results[0]!.status]).toEqual([false, 'nothing to dissolve']);
    expect(results[0]).not.toHaveProperty('tanks');
    expect(await refusal(concentrateFeed(moss, { ratio: '1:100', dose: '10 mL/L' }))).toEqual(['two-ratios']);
  });

  it('programmes: all, or one by name; a medium that makes no sense is refused', () => {
    expect(programmesOf({}, {}).result.length).toBeGreaterThan(20);
    expect(programmesOf({}, { plants: 'moth orchid', medium: 'bark' }).result).toHaveLength(1);
    expect(() => programmesOf({}, { plants: 'moth orchyd' })).toThrow(/moth orchyd/);
  });

  it('meter: a spoon weighed by the pen is kept in the text of the shelf; the pen is checked', async () => {
    const trial = { product: 'potassium-nitrate', spoon: '1/4 tsp', count: '4', before: '0.02', after: '1.62' };
    const { result } = await weighSpoonByPen(moss, { ...trial, measured: '4 L' });
    const text = densityOnShelf(
      { name: 'shelf.csv', text: 'id,form,formula,bulk_density\nkn,powder,KNO3,\n' },
      'kn',
      result,
    );
    expect(text).toMatch(/^id,form,formula,bulk_density\nkn,powder,KNO3,[\d.]+ \+\/- [\d.]+\n$/);
    expect(await refusal(weighSpoonByPen(moss, trial))).toEqual(['trial-incomplete']);
    expect(checkPenWithStandard({ standard: '1413 µS', reads: '1413' }).result.factor).toBeCloseTo(1, 9);
  });
});
