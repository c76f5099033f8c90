import { expect, it } from 'vitest';
import { readProducts } from '../../src/catalog/shelf.js';
import { assess } from '../../src/advice/assess.js';
import { dosedByPen } from '../../src/advice/dosed-by-pen.js';
import { parseRecipe } from '../../src/advice/recipe.js';
import { closeShelf } from '../../src/label/close.js';
import { unwrap } from '../../src/problem.js';
import { ruleBlocks } from '../../src/report/mix.js';
import { request } from './fixtures.js';
import type { LinearRule } from '../../src/programme/rule.js';

const cap = (nutrient: 'Cl' | 'K', upper: number): LinearRule => ({
  kind: 'linear',
  text: `${nutrient} <= ${upper}`,
  terms: { [nutrient]: 1 },
  upper,
  from: { owner: 'you' },
});

it('a rule that only the silence of a label breaks may break; one that its figures break is broken', async () => {
  // 0.5 g/L of 0-0-60: K 249 mg/L stated; Cl between none and all its partner, 226 mg/L
  const shelf = await closeShelf(unwrap(readProducts('id,form,K2O\npotash,powder,60', 'x.csv')));
  const recipe = unwrap(dosedByPen(unwrap(parseRecipe('2 g potash in 4 L', shelf)), []));
  const rules = [cap('Cl', 100), cap('Cl', 300), cap('K', 200)];
  const found = (await assess(recipe, request(shelf, {}, { rules }), false)).rules;
  expect(found.map(({ holds, mayHold }) => [holds, mayHold])).toEqual([
    [false, true],
    [true, undefined],
    [false, undefined],
  ]);
  expect(JSON.stringify(ruleBlocks(found))).toMatch(/MAY BREAK.*holds.*BROKEN/);
});
