import { describe, expect, it } from 'vitest';
import { judgedCan } from '../../src/chance/sure-figures.js';
import { shareOf } from '../../src/chance/sure.js';
import { buyFor } from '../../src/desk/buy.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { productsKnown } from '../../src/desk/recipe-products.js';
import { ecCap } from '../../src/feed/request.js';
import { exampleFiles } from '../desk/benches.js';

const bought = buyFor(exampleFiles('what-to-buy'), {}, shippedCatalog(), { beside: false });

describe('the cans of a purchase', () => {
  it('are not counted out for a rule that is only aimed at and that the plan gives up', async () => {
    const { result } = await bought;
    if (result.status !== 'made') throw new Error('a purchase');
    const feeds = result.options.flatMap((option) => option.feeds);
    expect(feeds.length).toBeGreaterThan(2);
    for (const { feed, rules, given } of feeds) {
      const { plan, sure } = given!;
      const kept = rules.filter(({ rule }) => !rule.aimed);
      expect(
        kept.every(({ holds }) => holds),
        feed.name,
      ).toBe(true);
      // the same plan counted again by the rules that it keeps, on other cans
      const again = shareOf(judgedCan(plan, plan.request, productsKnown(shippedCatalog())), 4000, 7);
      // three standard errors of the difference of two counts of 4000
      expect(Math.abs(sure.share - again), feed.name).toBeLessThan(3 * Math.sqrt((2 * 0.25) / 4000));
      expect(sure.share, feed.name).toBeGreaterThan(0.8);
    }
  });

  it('have doses that keep each EC cap by the full model', async () => {
    const { result } = await bought;
    if (result.status !== 'made') throw new Error('a purchase');
    for (const { given, ec, feed } of result.options.flatMap((option) => option.feeds)) {
      expect(given!.plan.status, feed.name).toBe('kept');
      const cap = ecCap(given!.plan.request);
      if (cap !== null) expect(ec.mSPerCm, feed.name).toBeLessThanOrEqual(cap * (1 + 1e-6));
    }
  });
});
