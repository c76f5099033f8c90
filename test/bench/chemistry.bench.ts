/**
 * Composition → conductivity, pH and all saturation indices of a 30-product recipe, beside one certified solve over the same 30 products.
 * `npm run bench` prints both and their ratio; the chemistry is to stay below 1 ms in the median.
 */
import { bench, describe } from 'vitest';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeShelf } from '../../src/label/close.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { chemistryOf } from '../../src/chemistry/conductivity.js';
import { ionsOfMix } from '../../src/can/ec.js';
import { type LinearProgram, solve } from '../../solver/index.js';

const shelf = await closeShelf([...shippedCatalog().salts, ...shippedCatalog().products].slice(0, 30));
const recipe = { products: shelf.map((_, i) => 0.02 + 0.002 * i), waters: [] };

/** The cheapest mix of the 30 that brings nitrogen, phosphorus, potassium, calcium, magnesium and sulfur within ±20 %. */
const program: LinearProgram = {
  columns: shelf.map(({ id }, i) => ({ id, cost: 1 + (i % 7) })),
  rows: (['N', 'P', 'K', 'Ca', 'Mg', 'S'] as const).map((nutrient) => {
    const inEach = (product: ClosedProduct): number => product.composition.content[nutrient].stated ?? 0;
    const total = shelf.reduce((sum, product, i) => sum + inEach(product) * recipe.products[i]!, 0);
    return {
      id: nutrient,
      lower: 0.8 * total,
      upper: 1.2 * total,
      terms: Object.fromEntries(shelf.map((product) => [product.id, inEach(product)])),
    };
  }),
};

const chemistry = (): unknown => chemistryOf(ionsOfMix(recipe, shelf, []));
const certified = (): Promise<unknown> => solve(program);

async function medianMs(what: () => unknown, rounds: number): Promise<number> {
  const times: number[] = [];
  for (let round = 0; round < rounds; round++) {
    const start = performance.now();
    await what();
    times.push(performance.now() - start);
  }
  return times.sort((a, b) => a - b)[Math.floor(rounds / 2)]!;
}

for (const warm of [chemistry, certified]) await medianMs(warm, 300);
const [ours, theirs] = [await medianMs(chemistry, 1000), await medianMs(certified, 300)];
console.log(
  `median of 30 products: chemistry ${ours.toFixed(3)} ms, certified solve ${theirs.toFixed(3)} ms, ratio ${(ours / theirs).toFixed(2)}`,
);

describe('a 30-product recipe', () => {
  bench('conductivity, pH and saturation indices', () => void chemistry());
  bench('one certified solve', async () => void (await certified()));
});
