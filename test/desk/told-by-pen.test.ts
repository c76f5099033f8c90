import { describe, expect, it } from 'vitest';
import type { AssessResult } from '../../src/advice/types.js';
import { assessRecipe, assessWords } from '../../src/desk/assess.js';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { judgeReading } from '../../src/desk/judge-reading.js';
import type { Wishes } from '../../src/desk/wishes.js';
import type { Refusal } from '../../src/problem.js';
import { assessSheet } from '../../src/report/assess.js';
import { jsonOf } from '../../src/report/json-of.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from './benches.js';

const moss = exampleFiles('moss-without-ammonium');
const FOUR = '30 ppm calcium-magnesium + 8 ppm kelp, then 70 ppm calcium-powder, then 85 ppm base-powder in 3 L';

const assessed = async (recipe: string, wishes: Wishes = {}): Promise<AssessResult> =>
  (await assessRecipe(moss, { feed: 'moss', recipe, ...wishes })).result;
const problems = async (recipe: string, wishes: Wishes = {}) =>
  assessWords(moss, { feed: 'moss', recipe, ...wishes }).then(
    () => [],
    (refusal: Refusal) => refusal.problems,
  );
const perBatch = ({ items, volumeLitres }: AssessResult) =>
  new Map(items.map((item) => [item.id, (item.gramsPerLitre ?? item.millilitresPerLitre)! * volumeLitres]));

describe('a recipe told by the pen', () => {
  it('is read as the same recipe told in grams', async () => {
    const told = await assessed(FOUR);
    expect(told.byPen.map(({ id, told: { ppm, scale } }) => [id, ppm, scale])).toEqual([
      ['sample-calcium-magnesium', 30, 500],
      ['sample-kelp', 8, 500],
      ['sample-calcium', 70, 500],
      ['sample-base', 85, 500],
    ]);
    const words = told.byPen.map(({ id, unit, amount }) => `${amount} ${unit} ${id}`).join(' + ');
    const plain = await assessed(`${words} in 3 L`);
    expect(plain.byPen).toEqual([]);
    for (const [id, amount] of perBatch(plain)) expect(perBatch(told).get(id)).toBeCloseTo(amount, 9);
    expect(told.ec.mSPerCm).toBeCloseTo(plain.ec.mSPerCm, 9);
    // each reading is that of the one before and its own increment, the last one that of the whole can
    told.byPen.forEach(({ before, after, told: { mSPerCm } }, i) => {
      expect(after - before).toBeCloseTo(mSPerCm, 9);
      if (i > 0) expect(before).toBeCloseTo(told.byPen[i - 1]!.after, 9);
    });
    expect(told.byPen.at(-1)!.after).toBeCloseTo(told.ec.mSPerCm, 6);
  });

  it('says what was told, and the grams with their range', async () => {
    const text = renderText(assessSheet(await assessed(FOUR)), { columns: 200, colour: false });
    expect(text).toMatch(/Base Powder B: 85 ppm more on the pen \(500 scale\): 0\.1\d+ g\/L \(0\.1\d+ to 0\.1\d+\)/);
    const json = jsonOf('assess', await assessed(FOUR)) as { byPen: object[] };
    expect(json.byPen[3]).toMatchObject({ id: 'sample-base', told: { by: 'more', ppm: 85, scale: 500 } });
    const until = await assessed('1/4 tsp calcium-powder, then base-powder until it shows 300 in 1 US gal');
    expect(renderText(assessSheet(until), { columns: 200, colour: false })).toContain(
      'Base Powder B: until the pen (500 scale) shows 300 ppm',
    );
    expect(until.ec.mSPerCm * 500).toBeCloseTo(300, 6);
  });

  it('the scale is that of the bench, or the one that was said', async () => {
    const [there] = (await assessed('70 ppm calcium-powder in 3 L', { scale: '700' })).byPen;
    const [same] = (await assessed('50 ppm calcium-powder in 3 L')).byPen;
    expect(there!.amount).toBeCloseTo(same!.amount, 9);
    expect(await problems('70 ppm calcium-powder in 3 L', { scale: 'EC' })).toMatchObject([
      { code: 'ppm-without-scale' },
    ]);
    expect(await problems('70 ppm calcium-powder in 3 L', { scale: 'xx' })).toMatchObject([{ code: 'pen-scale' }]);
  });

  it('starts from the reading of the water where there is one', async () => {
    const until = 'calcium-powder until it shows 160 in 3 L';
    const [plain] = (await assessed(until)).byPen;
    const [read] = (await assessed(until, { readingOfWater: '40 ppm' })).byPen;
    expect(read!.before).toBeCloseTo(0.08, 9);
    expect(read!.amount).toBeLessThan(plain!.amount);
  });

  it('misspelt names, what no pen shows and elements are told apart from advice', async () => {
    expect((await problems('30 ppm calcum-magnesum in 3 L'))[0]!.fix).toBe('Did you mean sample-calcium-magnesium?');
    expect((await problems('30 ppm urea + 70 ppm calcium-powder in 3 L'))[0]!.fix).toContain('does not show on a pen');
    expect((await problems('40 ppm sample-trace-liquid in 3 L'))[0]!.code).toBe('pen-over-rate');
    for (const advice of ['125 ppm N', '200 ppm on a 500 pen', '30 ppm calcium', 'max EC 0.8', 'up to 0.8 mS'])
      expect((await assessWords(moss, { feed: 'moss', recipe: advice })).about, advice).toBe('advice');
  });
});

describe('meter and concentrate read it too', () => {
  it('a can told by the pen reads as told', async () => {
    const { result } = await judgeReading(moss, { feed: 'moss', recipe: FOUR, reading: ['203 ppm'] });
    const told = await assessed(FOUR);
    expect(result.plan.map(({ id, amount }) => [id, expect.closeTo(amount, 9)])).toEqual(
      result.plan.map(({ id }) => [id, perBatch(told).get(id)]),
    );
    expect(result.judgement.verdict).toBe('within');
  });

  it('by the factor of a pen that reads low, and from the water it was dipped into first', async () => {
    const grams = async (wishes: Wishes) =>
      (
        await judgeReading(moss, {
          recipe: 'calcium-powder until it shows 160 in 3 L',
          reading: ['160 ppm'],
          ...wishes,
        })
      ).result.plan[0]!.amount;
    const plain = await grams({});
    expect(await grams({ penFactor: '1.1' })).toBeGreaterThan(plain * 1.09);
    expect(await grams({ reading: ['1: 40 ppm', '160 ppm'] })).toBeLessThan(plain);
  });

  it('a stock is made of it', async () => {
    const { results } = await concentrateFeed(moss, { recipe: '70 ppm calcium-powder in 3 L', ratio: '1:100' });
    expect(results[0]!.status).toBe('made');
  });
});
