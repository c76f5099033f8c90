import { describe, expect, it } from 'vitest';
import type { PurchaseOption } from '../../src/purchase/types.js';
import { purchase } from '../../src/purchase/purchase.js';
import { bruteForce, fewestByBruteForce, smallPurchase } from './brute.js';
import { seeds } from '../seeds.js';

const CASES = seeds(60, 120);

describe('purchase', () => {
  it(`equals brute force in ${CASES} seeded cases of at most 12 candidate packs`, async () => {
    const seen = { bought: 0, nothing: 0, none: 0, several: 0, nearest: 0 };
    for (let seed = 1; seed <= CASES; seed += 1) {
      const asked = smallPurchase(seed);
      const result = await purchase(asked);
      const wanted = await bruteForce(asked);
      expect(result.status, `seed ${seed}`).toBe(wanted.length === 0 ? 'cannot' : 'made');
      expect(result.proof.verdict, `seed ${seed}`).toBe(wanted.length === 0 ? 'infeasible' : 'optimal');
      const options = result.status === 'made' ? result.options : [];
      if (options[0]) {
        // the search and the other door each stop within 1e-6 of the best
        expect(options[0].total, `seed ${seed}`).toBeCloseTo(wanted[0]!.total, 4);
        expect(new Map(options[0].packs.map((p) => [p.id, p.count]))).toEqual(wanted[0]!.counts);
        const simplest = options.find(({ ways }) => ways.includes('simplest'))!;
        const fewest = (await fewestByBruteForce(asked, 'new'))!;
        expect(simplest.packs.filter(({ isNew }) => isNew).length, `seed ${seed}`).toBe(fewest.products);
        expect(simplest.total, `seed ${seed}`).toBeCloseTo(fewest.total, 4);
      }
      const nearest = options.find(({ ways }) => ways[0] === 'nearest');
      if (nearest) {
        expect(nearest.factor!, `seed ${seed}`).toBeLessThanOrEqual(options[0]!.factor!);
        expect(nearest.spend, `seed ${seed}`).toBeLessThanOrEqual(2 * options[0]!.spend * (1 + 1e-6));
      }
      check(options);
      seen[wanted.length === 0 ? 'none' : wanted[0]!.counts.size === 0 ? 'nothing' : 'bought'] += 1;
      if (options.length > 1) seen.several += 1;
      if (nearest) seen.nearest += 1;
    }
    expect(Math.min(...Object.values(seen)), JSON.stringify(seen)).toBeGreaterThan(2);
  });
});

describe('purchase compared', () => {
  it('with each feed alone and with the fewest products, equals brute force', async () => {
    let compared = 0;
    for (let seed = 201; seed <= 230; seed += 1) {
      const asked = smallPurchase(seed);
      const result = await purchase(asked, { ways: [] });
      if (result.status !== 'made') continue;
      const { comparison, options } = result;
      compared += 1;
      const fewest = (await fewestByBruteForce(asked, 'all'))!;
      expect(comparison!.fewest!.products.length, `seed ${seed}`).toBe(fewest.products);
      expect(comparison!.jointSpend).toBe(options[0]!.total);
      const { atMost: _, budget: __, ...free } = asked;
      for (const [i, line] of comparison!.alone.entries()) {
        const [best] = await bruteForce({ ...free, feeds: [asked.feeds[i]!] });
        expect(line.spend!, `seed ${seed}, ${line.feed}`).toBeCloseTo(best!.total, 4);
      }
    }
    expect(compared).toBeGreaterThan(10);
  });
});

/** What must hold of every option by plain sums. */
function check(options: readonly PurchaseOption[]): void {
  for (const option of options) {
    expect(option.spend).toBeCloseTo(
      option.packs.reduce((sum, p) => sum + p.count * p.price, 0),
      9,
    );
    expect(option.proof.figures.bound!).toBeLessThanOrEqual(option.total * (1 + 1e-6) + 1e-9);
    for (const feed of option.feeds) expect(feed.rules.every((rule) => rule.holds)).toBe(true);
    for (const line of option.stock) {
      const used = option.feeds.reduce((sum, feed) => {
        const item = feed.items.find((i) => i.id === line.id);
        return sum + feed.litres * (item?.gramsPerLitre ?? 0);
      }, 0);
      expect(line.used).toBeCloseTo(used, 6);
      if (line.onHand !== null) expect(used).toBeLessThanOrEqual((line.onHand + line.bought) * (1 + 1e-6) + 1e-9);
    }
  }
}
