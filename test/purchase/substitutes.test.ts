import { describe, expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { openBench } from '../../src/desk/open-bench.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { withEcCap } from '../../src/feed/request.js';
import { closeShelf } from '../../src/label/close.js';
import { substitutes } from '../../src/purchase/substitutes.js';
import { exampleFiles } from '../desk/benches.js';
import { made } from '../feed/answers.js';

describe('what could stand in for a product', () => {
  it('is held against the feed that blend makes, EC cap by the full model and all', async () => {
    const { requests } = await openBench(exampleFiles('moss-without-ammonium'), { feed: 'moss' });
    // between the least EC that this shelf can reach, 0.199 mS/cm, and the 0.225 of the cheapest feed without a cap
    const request = withEcCap(requests[0]!, 0.21);
    const feed = made(await blend(request, { prices: false }));
    expect(feed.ec.mSPerCm).toBeLessThanOrEqual(0.21 * (1 + 1e-6));
    const product = request.shelf.find(({ id }) => id === 'sample-calcium')!;
    const market = await closeShelf(shippedCatalog().salts.filter(({ id }) => /^(calcium|magnesium)-nitrate/.test(id)));
    const result = await substitutes({ feeds: [request], product, market, marketName: 'salts', currency: 'EUR' });
    const [of] = result.feeds;
    if (of?.status !== 'compared') throw new Error(of?.status);
    expect(of.original).toMatchObject({ keepsLimits: true, broken: 0 });
    expect(of.original.dose).toBeCloseTo(feed.items.find(({ id }) => id === product.id)!.gramsPerLitre!, 6);
    expect(of.original.costPerLitre).toBeCloseTo(feed.costPerLitre, 9);
    // and so are those that stand in: what is said to hold keeps the cap, too
    for (const { holds, broken } of of.substitutes) expect(holds).toBe(broken.length === 0);
    expect(result.status).toBe('found');
  });
});
