import { expect, it } from 'vitest';
import type { AssessResult } from '../../src/advice/types.js';
import { assessRecipe } from '../../src/desk/assess.js';
import { assessSheet } from '../../src/report/assess.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from '../desk/benches.js';

const moss = exampleFiles('moss-without-ammonium');
const assessed = async (recipe: string): Promise<AssessResult> =>
  (await assessRecipe(moss, { feed: 'moss', recipe })).result;
const tooMuch = (result: AssessResult): number =>
  result.status === 'no programme'
    ? 0
    : result.misses.filter(({ limit, value, bound }) => limit.kind !== 'rule' && value > bound).length;
const shareOf = (result: AssessResult): number | null => (result.status === 'no programme' ? null : result.mostShare);

it.each([
  [
    '1 g sample-base and 1 g sample-calcium per litre',
    (s: number) => `${s} g sample-base + ${s} g sample-calcium in 1 L`,
  ],
  [
    'half a gram of 20-20-20 and 1 g Epsom salt per litre',
    (s: number) => `${s / 2} g sample-balanced + ${s} g magnesium-sulfate in 1 L`,
  ],
])('a recipe too strong is not to be followed, and at most so much of it: %s', async (text, scaled) => {
  const strong = await assessed(text);
  const share = shareOf(strong)!;
  expect(share).toBeGreaterThan(0);
  expect(share).toBeLessThan(1);
  expect(tooMuch(await assessed(scaled(share)))).toBe(0);
  expect(tooMuch(await assessed(scaled(share + 0.01)))).toBeGreaterThan(0);
  const said = renderText(assessSheet(strong), { columns: 200, colour: false });
  expect(said).toMatch(/Do not follow it; at most \d+ % of these amounts/);
});

it('one within what the feed takes is not held back', async () => {
  const weak = await assessed('0.05 g sample-base and 0.05 g sample-calcium per litre');
  expect(shareOf(weak)).toBeNull();
  expect(renderText(assessSheet(weak), { columns: 200, colour: false })).not.toContain('Do not follow');
});
