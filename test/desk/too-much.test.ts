import { expect, it } from 'vitest';
import { openBench, type Refusal } from '../../src/index.js';

const bench = (feeds: number) => ({
  name: 'bench.yaml',
  text: `water: rain\nfeeds:\n${Array.from({ length: feeds }, (_, i) => `  f${i}: { plants: phal, medium: bark }\n`).join('')}`,
});
const shelf = (products: number) => ({
  name: 'shelf.csv',
  text: `id,form,K2O\n${Array.from({ length: products }, (_, i) => `p${i},powder,${1 + (i % 7)}\n`).join('')}`,
});

it('more feeds of more products than minutes of work are refused with what to leave out', async () => {
  const { blendFeeds } = await import('../../src/index.js');
  const refusal = await blendFeeds({ bench: bench(120), shelf: shelf(300) }, {}).catch((fault: Refusal) => fault);
  expect(refusal).toMatchObject({
    problems: [{ code: 'too-much', found: '120 feeds of 300 products each', expected: 'at most 73 of them at once' }],
  });
  // one feed of all of them, and many feeds of few, are no more than is asked for elsewhere
  const open = await openBench({ bench: bench(120), shelf: shelf(3) }, {});
  expect(open).toBeDefined();
});
