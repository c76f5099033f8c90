import { describe, expect, it } from 'vitest';
import { concentrateFeed } from '../../src/desk/concentrate.js';
import { oneForBench } from '../../src/desk/one.js';
import { concentrateShape } from '../../src/report/concentrate-shapes.js';
import { concentrateJson } from '../../src/report/json/concentrate.js';
import { exampleFiles } from './benches.js';

const FILES = exampleFiles('what-the-shelf-reaches');
const unasked = await concentrateFeed(FILES, { one: true });

describe('stock of one mix', () => {
  it('is made as strong as holds where nobody asks for a ratio, and a little stronger is refused', async () => {
    const made = concentrateShape.parse(concentrateJson(unasked.results[0]!));
    expect(made).toMatchObject({ status: 'made', ratioBy: 'strongest', holds: null });
    // a dose that a measure shows
    expect(made.dosePerLitre).toBe(Math.round(made.dosePerLitre));
    expect(made.ratio).toBeLessThanOrEqual(made.largest[1]!.ratio!);
    const stronger = await concentrateFeed(FILES, { one: true, ratio: `1:${made.largest[1]!.ratio! + 1}` });
    expect(stronger.results[0]!.status).toBe('too strong');
  });

  it('holds the mix that blend --one prints, in the doses of every feed', async () => {
    const [stock] = unasked.results;
    if (stock?.status !== 'made') throw new Error('no stock');
    const { result } = await oneForBench(FILES, { one: true });
    const { plan, cans } = result.mixes[0]!;
    for (const { product, chosen } of plan.items) {
      const bottles = stock.tanks.flatMap(({ items }) => items.filter(({ id }) => id === product.id));
      const perFeed = [...bottles, ...stock.apart.filter(({ id }) => id === product.id)];
      expect(perFeed).toHaveLength(1);
      // grams per litre of stock, that many times diluted, are those of the can
      expect(bottles[0]!.perLitre / stock.ratio).toBeCloseTo(chosen.amount / plan.batchLitres, 9);
    }
    expect(stock.shares!.map(({ feed, parts }) => [feed, parts.share])).toEqual(
      cans.map(({ sharing: { request, parts } }) => [request.header.name, parts.share]),
    );
  });

  it('offers the strongest as a command, in the words in which it was asked', async () => {
    const asked = { one: true, bench: 'examples/what-the-shelf-reaches' };
    for (const wish of [{ ratio: '1:50' }, { dose: '20 mL/L' }]) {
      const typed = { ...asked, ...wish };
      const { met, results } = await concentrateFeed(FILES, { one: true, ...wish });
      expect(met).toBe(false);
      const { holds, status } = concentrateShape.parse(concentrateJson(results[0]!, typed));
      expect(status).toBe('too strong');
      const [key] = Object.keys(wish) as ['ratio' | 'dose'];
      const said = new RegExp(`--${key} "?([^"]+)"?$`).exec(holds!.command)![1]!;
      expect(holds!.command).toMatch(/^velamen concentrate --one --bench examples\/what-the-shelf-reaches --/);
      if (key === 'ratio') continue;
      const again = await concentrateFeed(FILES, { one: true, dose: said });
      expect(again.results[0]!.status).toBe('made');
      expect(again.results[0]!.ratio).toBeCloseTo(holds!.ratio, 1);
    }
  });
});
