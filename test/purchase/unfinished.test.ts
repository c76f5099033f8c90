import { describe, expect, it } from 'vitest';
import { buyFor } from '../../src/desk/buy.js';
import { purchase } from '../../src/purchase/purchase.js';
import { buySheet } from '../../src/report/buy.js';
import { buyJson } from '../../src/report/json/buy.js';
import { exampleFiles } from '../desk/benches.js';
import { bruteForce, smallPurchase } from './brute.js';

/** So little that a search stops where it first counts what it has done. */
const NEXT_TO_NONE = 1e-9;

describe('a search out of work', () => {
  it('is not finished, brackets the best with its honest bound, and never says that nothing does where something does', async () => {
    const seen = { cut: 0, nothingYet: 0, finished: 0 };
    for (let seed = 1; seed <= 30; seed += 1) {
      const asked = smallPurchase(seed);
      const [best] = await bruteForce(asked);
      const result = await purchase(asked, { ways: [], effort: NEXT_TO_NONE });
      const { status } = buyJson(result);
      if (result.status === 'cannot' || result.status === 'open') expect(best, `seed ${seed}`).toBeUndefined();
      if (result.status === 'unfinished') seen.nothingYet += 1;
      if (result.status !== 'made') continue;
      const [{ total }] = result.options;
      expect(result.proof.figures.bound!, `seed ${seed}`).toBeLessThanOrEqual(best!.total * (1 + 1e-5) + 1e-4);
      expect(total, `seed ${seed}`).toBeGreaterThanOrEqual(best!.total * (1 - 1e-5) - 1e-4);
      seen[status === 'unfinished' ? 'cut' : 'finished'] += 1;
      if (status !== 'unfinished') expect(total).toBeCloseTo(best!.total, 4);
      else expect(buySheet(result).title).toMatch(/^Not finished: what to buy for .*, the best so far$/);
    }
    expect(seen.cut + seen.nothingYet).toBeGreaterThan(5);
    expect(seen.finished).toBeGreaterThan(5);
  });

  it('answers alike however fast the clock runs, where no seconds were asked for', async () => {
    const files = exampleFiles('what-to-buy');
    let slow = 0;
    // a clock on which every look takes an hour
    const asked = (now: () => number) => buyFor(files, { feed: 'moss' }, undefined, { now });
    const [idle, busy] = [await asked(() => 0), await asked(() => (slow += 3_600_000))];
    expect(buyJson(busy.result)).toEqual(buyJson(idle.result));
    expect(idle.result.status).toBe('made');
  });

  it('ends with what it has when its seconds are over, wherever that is', async () => {
    const files = exampleFiles('what-to-buy');
    const seen = new Set<string>();
    for (const looks of [1, 3, 6, 12, 20, 40]) {
      let left = looks;
      const now = (): number => (left-- > 0 ? 0 : 3_600_000);
      const { met, result } = await buyFor(files, { feed: 'moss', seconds: '1000' }, undefined, { now });
      expect(met, `${looks} looks`).toBe(true);
      expect(['made', 'unfinished'], `${looks} looks`).toContain(result.status);
      if (result.status === 'made')
        expect(
          result.notes.some((note) => note.kind === 'not finished'),
          `${looks} looks`,
        ).toBe(true);
      seen.add(result.status);
    }
    expect([...seen].sort()).toEqual(['made', 'unfinished']);
  });
});
