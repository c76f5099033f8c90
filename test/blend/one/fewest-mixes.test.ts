import { describe, expect, it } from 'vitest';
import { planFeed } from '../../../src/blend/feed-plan.js';
import { fewestMixes } from '../../../src/blend/one/fewest-mixes.js';
import { partitionsInto } from '../../../src/blend/one/groups.js';
import type { FeedAlone } from '../../../src/blend/one/one-types.js';
import { MOST_STRETCH } from '../../../src/blend/one/shared-plan.js';
import { sharings } from '../../../src/blend/one/shared-request.js';
import { USUAL_KIT } from '../../../src/dose/usual-kit.js';
import { withoutCustom } from '../../../src/feed/grade.js';
import { withoutEcCap } from '../../../src/feed/request.js';
import { grams } from '../../../src/units/index.js';
import { plainHighs } from '../../proof/plain-highs.js';
import { jointProgram, sharedBench } from './shared-benches.js';

const hands = { kit: { ...USUAL_KIT, scaleStepGrams: grams(0.01) }, sure: 0.9, known: [] };

/** Whether HiGHS finds a mix for a group on a program of its own, with every limit or without what convention alone asks. */
async function canShare(feeds: readonly FeedAlone[]): Promise<boolean> {
  const group = sharings(feeds.map(({ request, plan }) => ({ request, own: plan.near.asked })));
  const graver = group.map((one) => ({
    ...one,
    request: { ...one.request, programme: withoutCustom(one.request.programme) },
  }));
  for (const asked of [group, graver])
    if ((await plainHighs(jointProgram(asked, MOST_STRETCH))).verdict === 'optimal') return true;
  return false;
}

describe('the fewest mixes', () => {
  it('are as many as HiGHS needs over every way of sharing, more only where cans would not hold', async () => {
    const counts: number[] = [];
    for (let seed = 1; counts.length < 10; seed += 1) {
      const alone: FeedAlone[] = [];
      for (const { request } of await sharedBench(seed, withoutEcCap)) {
        const plan = await planFeed(request, { ...hands, want: 'near', factor: 1, offers: false });
        if ('plan' in plan) alone.push({ request, plan, wayOut: null, litresPerYear: null });
      }
      if (alone.length < 2) continue;
      const { mixes, apart } = await fewestMixes(alone, hands);
      expect(mixes.flatMap(({ cans }) => cans).length).toBe(alone.length);
      let least = alone.length;
      for (let count = alone.length - 1; count >= 1; count -= 1) {
        for (const partition of partitionsInto(alone, count)) {
          const all = await Promise.all(partition.map((group) => group.length === 1 || canShare(group)));
          if (all.every(Boolean)) least = count;
        }
      }
      if (apart.some(({ why }) => why.kind === 'cans')) expect(mixes.length).toBeGreaterThanOrEqual(least);
      else expect(mixes.length).toBe(least);
      for (const { why, proof } of apart) if (why.kind === 'limits') expect(proof.verdict).toBe('infeasible');
      counts.push(mixes.length);
    }
    // both answers were really put to the test
    expect(counts.some((count) => count === 1)).toBe(true);
    expect(counts.some((count) => count > 1)).toBe(true);
  });
});
