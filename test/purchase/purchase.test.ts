import { describe, expect, it } from 'vitest';
import type { PurchaseOption } from '../../src/purchase/types.js';
import { purchase } from '../../src/purchase/purchase.js';
import { bruteForce, fewestByBruteForce, smallPurchase } from './brute.js';

const CASES = 120;

describe('purchase', () => {
  it(`equals brute force in ${CASES} seeded cases of at most 12 candidate packs`, async () => {
    const seen = { bought: 0, nothing: 0, none: 0, several: 0 };
    for (let seed = 1; seed <= CASES; seed += 1) {
      const asked = smallPurchase(seed);
      const result = await purchase(asked);
      const wanted = await bruteForce(asked);
      expect(result.status, `seed ${seed}`).toBe(wanted.length === 0 ? 'cannot' : 'made');
      expect(result.proof.verdict, `seed ${seed}`).toBe(wanted.length === 0 ? 'infeasible' : 'optimal');
      const options = result.status === 'made' ? result.options : [];
      expect(options.length, `seed ${seed}`).toBe(listedLength(wanted));
      options.forEach((option, k) => {
        // the search and the other door each stop within 1e-6 of the best
        expect(option.total, `seed ${seed}, option ${k + 1}`).toBeCloseTo(wanted[k]!.total, 4);
      });
      if (options[0]) expect(new Map(options[0].packs.map((p) => [p.id, p.count]))).toEqual(wanted[0]!.counts);
      check(options);
      seen[wanted.length === 0 ? 'none' : wanted[0]!.counts.size === 0 ? 'nothing' : 'bought'] += 1;
      if (wanted.length > 2) seen.several += 1;
    }
    expect(Math.min(...Object.values(seen))).toBeGreaterThan(4);
  }, 300_000);
});

describe('purchase compared', () => {
  it('with each feed alone and with the fewest products, equals brute force', async () => {
    let compared = 0;
    for (let seed = 201; seed <= 230; seed += 1) {
      const asked = smallPurchase(seed);
      const result = await purchase(asked, { options: 1 });
      if (result.status !== 'made') continue;
      const { comparison, options } = result;
      compared += 1;
      expect(comparison!.fewest!.products.length, `seed ${seed}`).toBe(await fewestByBruteForce(asked));
      expect(comparison!.jointSpend).toBe(options[0]!.total);
      const { atMost: _, budget: __, ...free } = asked;
      for (const [i, line] of comparison!.alone.entries()) {
        const [best] = await bruteForce({ ...free, feeds: [asked.feeds[i]!] }, 1);
        expect(line.spend!, `seed ${seed}, ${line.feed}`).toBeCloseTo(best!.total, 4);
      }
    }
    expect(compared).toBeGreaterThan(10);
  });
});

/** Where nothing has to be bought there is nothing else to choose. */
function listedLength(wanted: { counts: Map<string, number> }[]): number {
  return wanted[0]?.counts.size === 0 ? 1 : wanted.length;
}

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
