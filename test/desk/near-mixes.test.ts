import { readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { blendFeeds } from '../../src/desk/blend.js';
import { nearMixes } from '../../src/desk/near-mixes.js';
import { waterContent } from '../../src/feed/terms.js';
import { factorOf, NITROGEN_WITHIN } from '../../src/feed/near.js';

const of = (bench: string) => ({
  bench: { name: 'bench.yaml', text: readFileSync(`examples/${bench}/bench.yaml`, 'utf8') },
  shelf: { name: 'shelf.csv', text: readFileSync(`examples/${bench}/shelf.csv`, 'utf8') },
  shelfPlace: 'shelf.csv',
  journalPlace: 'journal.csv',
});

describe('the mix that stands for a feed while a slider moves', () => {
  it('is certified, keeps every limit and lies as near as it says, whatever the labels that were closed once', async () => {
    const mixes = await nearMixes(of('moss-without-ammonium'));
    for (const wishes of [{}, { strength: '60 %' }, { near: '20 %' }, { strength: '80 %', nh4: '0 %' }]) {
      const answer = (await mixes.at(wishes))!;
      expect(answer.status, JSON.stringify(wishes)).toBe('near');
      if (answer.status !== 'near') continue;
      expect(answer.proof.verdict).toBe('optimal');
      const { asked } = answer.near;
      for (const { element, low, high, mgPerLitre, min, aim, max } of answer.contents.elements) {
        if (min !== null) expect(low, element).toBeGreaterThanOrEqual(min * (1 - 1e-6));
        if (max !== null) expect(high, element).toBeLessThanOrEqual(max * (1 + 1e-6));
        // reckoned anew from the labels
        const { waters, products } = answer.amounts;
        const held =
          products.reduce((sum, x, i) => {
            const { stated, low: least } = mixes.shelf[i]!.composition.content[element];
            return sum + x * (stated ?? least);
          }, 0) + waters.reduce((sum, share, i) => sum + share * waterContent(mixes.waters[i]!, element), 0);
        expect(mgPerLitre, element).toBeCloseTo(held, 6);
        if (aim === null || aim === 0 || asked.without.includes(element)) continue;
        if (element === 'N') expect(Math.abs(held / aim - 1)).toBeLessThanOrEqual(NITROGEN_WITHIN * (1 + 1e-6));
        else expect(factorOf(element, held, aim), element).toBeLessThanOrEqual(asked.factor * (1 + 1e-6));
      }
      const { ec } = answer.contents;
      expect(ec.mSPerCm).toBeLessThanOrEqual((ec.cap?.bound ?? 99) * (1 + 1e-6));
      if ('nh4' in wishes) expect(answer.contents.nitrogenShares?.ammonium).toBeLessThan(1e-6);
    }
  });

  it('is what the doses of the same feed begin with: no doses are planned clearly nearer to the aims', async () => {
    const mixes = await nearMixes(of('spoons-alone'));
    const wishes = { strength: '100 %', near: '5 %' };
    const answer = (await mixes.at(wishes))!;
    const { results } = await blendFeeds(of('spoons-alone'), { ...wishes, feed: answer.feed.name });
    const [made] = results;
    if (answer.status !== 'near' || !made || !('given' in made) || made.status !== 'made') throw new Error('no feed');
    expect(answer.feed).toEqual(made.feed);
    // elements that are not to blame for the width may be held nearer than the others
    const { factor, own = {} } = made.given.near.asked;
    const widest = Math.max(factor, ...Object.values(own));
    // the least width is known to half a percent, here by tangents, there by halving
    expect(answer.near.asked.factor).toBeLessThanOrEqual(widest * 1.0051);
    expect(answer.near.asked.factor).toBeGreaterThan(widest / 1.2);
  });

  it('says that no mix keeps the limits, with what misses least', async () => {
    const answer = (await (await nearMixes(of('what-to-buy'))).at({}))!;
    expect(answer.status).toBe('none');
    expect(answer.contents!.elements.length).toBeGreaterThan(10);
  });

  it('refuses what is no strength, as every command does', async () => {
    const mixes = await nearMixes(of('spoons-alone'));
    await expect(mixes.at({ strength: 'strong' })).rejects.toThrow();
    await expect(nearMixes(of('spoons-alone'), 'nobody')).rejects.toThrow();
  });
});
