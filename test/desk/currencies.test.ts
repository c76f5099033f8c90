import { describe, expect, it } from 'vitest';
import type { BenchFiles } from '../../src/desk/bench-files.js';
import { blendFeeds } from '../../src/desk/blend.js';
import { buyFor } from '../../src/desk/buy.js';
import type { Wishes } from '../../src/desk/wishes.js';
import { exampleFiles } from './benches.js';
import { problemLine, Refusal } from '../../src/problem.js';

const COLUMNS = 'id,form,P2O5,K2O,NO3-N,pack,price\n';
const files = (price: string, market?: string): BenchFiles => ({
  bench: {
    name: 'bench.yaml',
    text: 'currency: EUR\nwater: rain\nfeeds: { a: { plants: phalaenopsis, medium: bark, weekly: 4 L } }\n',
  },
  shelf: { name: 'shelf.csv', text: `${COLUMNS}jar,powder,10,10,10,1 kg,${price}\n` },
  ...(market === undefined
    ? {}
    : { market: { name: 'shop.csv', text: `${COLUMNS}tin,powder,10,10,10,1 kg,${market}\n` } }),
});

async function refusals(ask: Promise<unknown>): Promise<string[]> {
  try {
    await ask;
  } catch (fault) {
    if (fault instanceof Refusal) return fault.problems.filter((p) => p.severity === 'error').map(problemLine);
    throw fault;
  }
  return [];
}

describe('prices in another currency than the bench', () => {
  const OTHER = 'expected a price in EUR. Write what it is in EUR.';

  it.each([
    ['12.50', {}, []],
    ['12.50 EUR', {}, []],
    ['€12.50', {}, []],
    ['12.50 USD', {}, [`shelf.csv:2 (price): found "12.5 USD"; ${OTHER}`]],
    ['12.50 USD', { currency: 'USD' }, []],
  ] as [string, Wishes, string[]][])('%s on the shelf, asked with %j', async (price, wishes, told) => {
    expect(await refusals(blendFeeds(files(price), wishes))).toEqual(told);
  });

  it('are refused in a market and a budget too, all at once', async () => {
    expect(await refusals(buyFor(files('3', '4 GBP'), { budget: '30 USD' }))).toEqual([
      `shop.csv:2 (price): found "4 GBP"; ${OTHER}`,
      '(--budget): found "30 USD"; expected money in EUR. Write what it is in EUR.',
    ]);
  });
});

describe('what to buy where the catalog’s prices are in another currency', () => {
  it('counts packs, says so, and relabels nothing', async () => {
    const { result } = await buyFor(exampleFiles('what-to-buy'), { feed: 'moss', currency: 'USD' }, undefined, {
      beside: false,
    });
    expect(result.currency).toBe('packs');
    expect(result.notes).toContainEqual({ kind: 'other currency', of: 'EUR', bench: 'USD' });
    if (result.status !== 'made') throw new Error('the catalog serves the feed');
    const [{ packs, spend, laterYears }] = result.options;
    expect(spend).toBe(packs.reduce((sum, { count }) => sum + count, 0));
    expect(laterYears).toBeNull();
    expect(await refusals(buyFor(exampleFiles('what-to-buy'), { currency: 'USD', budget: '20' }))).toHaveLength(1);
  });
});
