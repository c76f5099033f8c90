import { describe, expect, it } from 'vitest';
import { oneForBench } from '../../src/desk/one.js';
import { Refusal } from '../../src/problem.js';
import { oneJson } from '../../src/report/json/one.js';
import { oneShape } from '../../src/report/one-shapes.js';
import { oneSheet } from '../../src/report/one.js';
import { mixingSheets } from '../../src/desk/mixing-sheets.js';
import { sheetJson } from '../../src/report/json/sheet.js';
import { sheetShape } from '../../src/report/sheet-shapes.js';
import { exampleFiles } from './benches.js';

const FILES = exampleFiles('what-the-shelf-reaches');

describe('one mix for a bench', () => {
  it('feeds what it can, is published as it says, and names what it cannot feed', async () => {
    const { met, result } = await oneForBench(FILES, {});
    const { mixes, without } = oneShape.parse(oneJson(result));
    expect(met).toBe(false);
    expect(without).toEqual(['moth-orchids']);
    expect(mixes.map(({ dilutions }) => dilutions.map(({ feed }) => feed))).toEqual([['cattleyas', 'winter']]);
    const [mix] = mixes;
    for (const { elements, share, parts, sure, misses } of mix!.dilutions) {
      expect(share).toBeCloseTo(parts.mix / (parts.mix + parts.water), 12);
      expect(sure).toBeGreaterThanOrEqual(0.9);
      expect(misses).toEqual([]);
      const nitrogen = elements.find(({ element }) => element === 'N')!;
      expect(Math.abs(nitrogen.mgPerLitre / nitrogen.aim! - 1)).toBeLessThan(0.08);
      // what the water does not bring is that of the mix, times its share: iron stands in no water here
      const iron = (of: typeof elements): number => of.find(({ element }) => element === 'Fe')!.mgPerLitre;
      expect(iron(elements)).toBeCloseTo(share * iron(mix!.dilutions[0]!.elements), 9);
    }
    expect(oneSheet(result).title).toMatch(
      /^one mix for cattleyas and winter: at least 9\d of 100 cans of each keep its limits/,
    );
  });

  it('has a sheet that tells how each feed is made of it', async () => {
    const { met, results, warnings } = await mixingSheets(FILES, { one: true });
    expect(met).toBe(false);
    expect(warnings.map(({ found }) => found)).toContain('moth-orchids: this shelf gives it no feed');
    const sheet = sheetShape.parse(sheetJson(results[0]!));
    expect(sheet.dilutions!.map(({ feed }) => feed)).toEqual(['cattleyas', 'winter']);
    for (const { parts, litres, mixLitres } of sheet.dilutions!)
      expect(mixLitres).toBeCloseTo((litres * parts.mix) / (parts.mix + parts.water), 9);
    const { result } = await oneForBench(FILES, {});
    expect(sheet.steps.map(({ id }) => id)).toEqual(result.mixes[0]!.plan.items.map(({ product }) => product.id));
  });

  it('is another question than one that is bare, closest or of few products', async () => {
    await expect(oneForBench(FILES, { bare: true, one: true })).rejects.toThrow(Refusal);
    await expect(oneForBench(FILES, { atMost: '2', one: true })).rejects.toThrow(Refusal);
  });
});
