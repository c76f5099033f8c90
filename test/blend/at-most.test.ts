import { describe, expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { blendSheet } from '../../src/report/blend.js';
import { proofSentence } from '../../src/report/says/proof.js';
import { renderText } from '../../src/report/text.js';
import { example } from '../dose/benches.js';
import { cannot, made } from '../feed/answers.js';
import { whyNotJson } from '../../src/report/json/why-not.js';

describe('blend with at most so many products, on the first example', () => {
  it('says of one product what is true: more do, each single one is proved impossible', async () => {
    const { request } = await example('moss-without-ammonium', 'moss');
    const result = cannot(await blend({ ...request, atMost: 1 }));
    expect(whyNotJson(result).conflict).toEqual([
      { limit: 'at most 1 product', from: 'you', because: ['every other limit can be kept with more products'] },
    ]);
    const [way] = result.relaxations;
    if (way?.kind !== 'products') throw new Error('a way out by more products');
    expect(way.from).toBe(1);
    // the nearest feed is of one product, too
    expect(result.nearest!.items).toHaveLength(1);
    expect(result.nearest!.misses.length).toBeGreaterThan(0);
    expect(proofSentence(result.proof)).toBe(
      'with any number of products a mix exists; of every choice of at most 1, each proved impossible',
    );
    const text = renderText(blendSheet(result), { columns: 80, colour: false });
    expect(text).toContain('at most 1 product (you): every other limit can be kept with more products');
    expect(text).not.toContain('contradicts itself');
    // so many do, and one fewer do not
    const fewest = made(await blend({ ...request, atMost: way.to }));
    expect(fewest.items.length).toBeLessThanOrEqual(way.to);
    if (way.to > 2) expect((await blend({ ...request, atMost: way.to - 1 })).status).not.toBe('made');
  });

  it('proves the best choice over every choice', async () => {
    const { request } = await example('moss-without-ammonium', 'moss');
    const free = made(await blend(request));
    for (const most of [3, 4, 5]) {
      const result = made(await blend({ ...request, atMost: most }));
      expect(result.items.length).toBeLessThanOrEqual(most);
      expect(result.costPerLitre).toBeGreaterThanOrEqual(free.costPerLitre * (1 - 1e-6));
      expect(result.proof.figures.bound!).toBeLessThanOrEqual(result.proof.figures.found!);
      expect(proofSentence(result.proof)).toContain(`of at most ${most} products`);
    }
  });
});
