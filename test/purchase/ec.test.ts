import { describe, expect, it } from 'vitest';
import { buyFor } from '../../src/desk/buy.js';
import { purchase } from '../../src/purchase/purchase.js';
import { proofSentence } from '../../src/report/says/proof.js';
import { buyJson } from '../../src/report/json/buy.js';
import { buyShape } from '../../src/report/buy-shapes.js';
import { exampleFiles, shelfFiles } from '../desk/benches.js';
import { bruteForce, smallPurchase } from './brute.js';
import { seeds } from '../seeds.js';

/** The example with an empty shelf, its own shelf for sale. */
async function buyUnder(cap: string) {
  const { bench, shelf: market } = exampleFiles('moss-without-ammonium');
  const files = { ...shelfFiles('id,form,formula,on_hand\nnothing,powder,NaCl,0 g\n'), bench, market };
  const { met, result } = await buyFor(files, { rule: [`EC <= ${cap}`] });
  return { met, result: buyShape.parse(buyJson(result)) };
}

describe('a purchase under an EC cap', () => {
  it('is proved only where the cap is kept by the full model, and says what a straight line leaves open', async () => {
    const { met, result } = await buyUnder('0.18');
    expect(met).toBe(true);
    for (const option of result.options) {
      // the sentence is about the packs' own mix; the doses that are measured of it may keep the cap all the same
      const isOver = option.proof.sentence.includes('over its cap');
      if (isOver) expect(option.proof.verdict).toBe('uncertified');
    }
    const [first] = result.options;
    expect(result.status).toBe(first!.proof.sentence.includes('over its cap') ? 'uncertified' : 'optimal');
    expect(result.proof.sentence).toMatch(/EC (cap of moss|of moss is over its cap)/);
  });

  it('says nothing of a cap that does not matter', async () => {
    expect((await buyUnder('0.4')).result.proof.sentence).not.toContain('EC');
  });

  it('sells nothing where the linearisation of the least EC leaves no mix', async () => {
    const { met, result } = await buyUnder('0.1');
    expect(met).toBe(false);
    expect(result.status).toBe('infeasible');
    expect(JSON.stringify(result.failures)).toContain('EC');
  });
});

describe('a purchase out of time', () => {
  it('brackets the best with its honest bound, where the search is stopped at once', async () => {
    const seen = { stopped: 0, finished: 0 };
    for (let seed = 1; seed <= seeds(40, 80); seed += 1) {
      const asked = smallPurchase(seed);
      const [best] = await bruteForce(asked);
      // the search stops where it first looks at the clock
      const result = await purchase(asked, { secondsLeft: () => 1e-9 });
      const { proof } = result;
      if (result.status === 'cannot') expect(best, `seed ${seed}`).toBeUndefined();
      if (result.status === 'open') expect(proofSentence(proof)).not.toContain('not finished');
      if (result.status === 'made') {
        const [{ total }] = result.options;
        expect(proof.figures.bound!, `seed ${seed}`).toBeLessThanOrEqual(best!.total * (1 + 1e-5) + 1e-4);
        expect(total, `seed ${seed}`).toBeGreaterThanOrEqual(best!.total * (1 - 1e-5) - 1e-4);
        if (proof.verdict === 'optimal') expect(total).toBeCloseTo(best!.total, 4);
      }
      if (proof.verdict === 'uncertified') {
        seen.stopped += 1;
        expect(proofSentence(proof)).toMatch(/^not finished|search/);
      } else seen.finished += 1;
    }
    expect(Math.min(seen.stopped, seen.finished)).toBeGreaterThan(seeds(5, 10));
  });
});
