import { describe, expect, it } from 'vitest';
import { nearestOfAll, nearestWidth, nearRequest } from '../../src/blend/near-width.js';
import { quickWidths } from '../../src/blend/quick-width.js';
import { openBench } from '../../src/desk/open-bench.js';
import { cheapest } from '../../src/formulation/index.js';
import { gatheredShelf, inventedShelf } from '../bench/invented-shelf.js';

const BENCH = 'water: rain\nfeeds:\n  moth: { plants: phalaenopsis, medium: bark, batch: 4 L }\n';

async function requestAt(shelf: string, strength: number) {
  const files = { bench: { name: 'bench.yaml', text: BENCH }, shelf: { name: 'shelf.csv', text: shelf } };
  const { requests } = await openBench(
    { ...files, shelfPlace: 'shelf.csv', journalPlace: 'journal.csv' },
    { strength: `${strength} %` },
  );
  return requests[0]!;
}

describe('the least widths, with the factor as a column', () => {
  it.each([
    ['of thirty products', gatheredShelf(2)],
    ['of ten products', inventedShelf(10, 3)],
    ['of thirty that hardly fit', inventedShelf(30, 5)],
  ])('are those of the bisection on a shelf %s', async (_, shelf) => {
    const quick = quickWidths();
    for (const strength of [30, 100, 150]) {
      const request = await requestAt(shelf, strength);
      const pairs = [
        [await nearestWidth(request, 1), await quick(request, 1)],
        [await nearestOfAll(request), await nearestOfAll(request, quick)],
      ] as const;
      for (const [slow, fast] of pairs) {
        const told = `${strength} %`;
        if (!('found' in slow) || !('found' in fast)) {
          expect('found' in fast, told).toBe('found' in slow);
          continue;
        }
        expect(fast.asked.nitrogenWithin, told).toBe(slow.asked.nitrogenWithin);
        // each is within half a percent of the least
        expect(fast.asked.factor / slow.asked.factor, told).toBeGreaterThan(1 / 1.0051);
        expect(fast.asked.factor / slow.asked.factor, told).toBeLessThan(1.0051);
        expect(fast.found.proof.verdict, told).toBe('optimal');
      }
    }
  });

  it('have no mix a little nearer', async () => {
    const request = await requestAt(inventedShelf(30, 5), 60);
    const fast = await quickWidths()(request, 1);
    if (!('found' in fast)) throw new Error('no mix');
    expect(fast.asked.factor).toBeGreaterThan(1.1);
    const nearer = { ...fast.asked, factor: fast.asked.factor / 1.006 };
    expect((await cheapest(nearRequest(request, nearer))).answer).toBe('none');
  });
});
