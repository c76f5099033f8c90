import { describe, expect, it } from 'vitest';
import { frontier } from '../../src/blend/frontier.js';
import { givenFeed } from '../../src/blend/given.js';
import type { Kit } from '../../src/catalog/bench-types.js';
import { productsKnown } from '../../src/desk/recipe-products.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { USUAL_KIT } from '../../src/dose/usual-kit.js';
import { factorOfShare } from '../../src/feed/near.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { grams } from '../../src/units/index.js';
import { made } from '../feed/answers.js';
import { powder, request } from '../feed/fixtures.js';
import { seeds } from '../seeds.js';
import { benches } from '../feed/random-benches.js';

const BENCHES = seeds(2, 3);
const catalog = shippedCatalog();
const known = productsKnown(catalog);
const feedAt =
  (asked: FeedRequest, kit: Kit = USUAL_KIT) =>
  (factor: number) =>
    givenFeed(asked, { kit, known, solubility: catalog.solubility, offers: false, factor });

describe('cost against nearness', () => {
  it('begins at no share at all and ends where nothing wider is cheaper', async () => {
    // K aim 50 from dear alone, 100 mg/g at 4 EUR/kg: what nearness to K costs is what `dear` costs
    const cheap = powder('cheap', { 'NO3-N': 10 }, { price: 1, pack: 1000 });
    const dear = powder('dear', { K: 10 }, { price: 4, pack: 1000 });
    const asked = request([cheap, dear], { N: { min: 50, aim: 100, max: 150 }, K: { aim: 50 } });
    const { points } = made(await frontier(asked, feedAt(asked, { spoons: [], scaleStepGrams: grams(0.01) })));
    expect(points.length).toBeGreaterThan(2);
    // 1 g/L of cheap, and at no share 0.5 g/L of dear, within the nitrogen that steps of a scale may cost; at ten times its aim more 0.045 g/L
    expect(points[0]!.near).toBe(0);
    expect(Math.abs(points[0]!.cost / 0.003 - 1)).toBeLessThan(0.08);
    expect(points.at(-1)!.cost).toBeLessThan(0.0015);
  });

  it('is one point where nothing is to be traded, and none where no mix exists', async () => {
    const only = powder('only', { 'NO3-N': 10 }, { price: 1, pack: 1000 });
    const fixed = request([only], { N: { min: 100, aim: 100, max: 150 } });
    const one = made(await frontier(fixed, feedAt(fixed)));
    expect(one.points).toMatchObject([{ near: 0, costOfCloser: null }]);
    const torn = request([only], { N: { min: 100, aim: 100 }, K: { min: 10, aim: 20 } });
    const none = await frontier(torn, feedAt(torn));
    expect(none).toMatchObject({ status: 'cannot', proof: { verdict: 'infeasible' } });
    expect(none).not.toHaveProperty('points');
  });

  it(`of ${BENCHES} small random benches: every point is what its share gives, nearer first and cheaper last, and wider shares are not cheaper`, async () => {
    let corners = 0;
    for (const { seed, request: asked } of await benches(BENCHES, true, 41_000, () => 6)) {
      const result = made(await frontier(asked, feedAt(asked)));
      for (const [i, point] of result.points.entries()) {
        const again = await feedAt(asked)(factorOfShare(point.near));
        if (again.status !== 'made') throw new Error(`${seed}: no feed at ${point.near}`);
        expect([again.costPerLitre, again.given.near.main, again.given.near.trace, again.given.sure.share]).toEqual([
          point.costPerLitre,
          point.main,
          point.trace,
          point.sure,
        ]);
        const before = result.points[i - 1];
        if (!before) continue;
        expect(point.near, `${seed}`).toBeGreaterThan(before.near);
        expect(point.cost, `${seed}`).toBeLessThan(before.cost);
        expect(before.costOfCloser, `${seed}`).toBeCloseTo(
          (before.cost - point.cost) / (100 * (point.near - before.near)),
          9,
        );
        corners += 1;
      }
    }
    expect(corners).toBeGreaterThan(1);
  });
});
