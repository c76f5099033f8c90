import { describe, expect, it } from 'vitest';
import { givenFeed } from '../../src/blend/given.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { proofSentence } from '../../src/report/says/proof.js';
import { cheapest } from '../../src/formulation/index.js';
import { withoutCustom } from '../../src/feed/grade.js';
import { litres } from '../../src/units/index.js';
import { example } from '../dose/benches.js';
import { randomBench } from '../feed/random-benches.js';
import { seeds } from '../seeds.js';

const known = { known: [] };

/** Whether so many products can keep the limits that count, by trying each choice of them; no search, no whole numbers. */
async function someChoice(request: FeedRequest, most: number): Promise<boolean> {
  const { atMost: _, ...rest } = { ...request, programme: withoutCustom(request.programme) };
  const choices = (from: number, left: number): number[][] =>
    left === 0
      ? [[]]
      : Array.from({ length: request.shelf.length - from }, (_, i) => from + i).flatMap((i) =>
          choices(i + 1, left - 1).map((others) => [i, ...others]),
        );
  for (const choice of choices(0, Math.min(most, request.shelf.length))) {
    const answer = await cheapest({ ...rest, shelf: choice.map((i) => request.shelf[i]!) });
    if (answer.answer === 'found') return true;
  }
  return false;
}

async function holds(request: FeedRequest, kit: Parameters<typeof givenFeed>[1]['kit'], most: number, name: string) {
  const result = await givenFeed({ ...request, atMost: most }, { kit, offers: false, ...known });
  const sentence = proofSentence(result.proof);
  if (result.status === 'made') {
    expect(result.given.plan.items.length, name).toBeLessThanOrEqual(most);
    expect(result.items.length, name).toBeLessThanOrEqual(most);
    if (result.proof.verdict === 'optimal') expect(sentence, name).toContain(`of at most ${most} product`);
    return 'made';
  }
  expect(result.nearest?.items.length ?? 0, name).toBeLessThanOrEqual(most);
  expect(result.given.plan?.items.length ?? 0, name).toBeLessThanOrEqual(most);
  if (result.status === 'cannot') {
    const way = result.relaxations.find(({ kind }) => kind === 'products');
    if (way?.kind === 'products') {
      expect(sentence, name).toContain('with any number of products a mix exists');
      return way.to;
    }
    expect(sentence, name).not.toContain('with any number');
    return 'none';
  }
  return 'open';
}

describe('at most so many products', () => {
  it.each([
    ['moss-without-ammonium', 'moss', [1, 2]],
    ['what-the-shelf-reaches', 'cattleyas', [2, 3]],
    ['what-the-shelf-reaches', 'winter', [3]],
    ['what-the-shelf-reaches', 'moth-orchids', [1, 2]],
    ['what-to-buy', 'moss', [1, 2, 3]],
    ['what-to-buy', 'bark', [1, 2, 3]],
  ])('%s, %s: never more are measured out than were asked for', async (bench, feed, few) => {
    const { request, bench: opened } = await example(bench, feed);
    for (const most of seeds(0, 1) ? [1, 2, 3] : few) await holds(request, opened.kit, most, `${feed} ${most}`);
  });

  it('seeded shelves: never more than asked, and where so few will not do, the number that does is the least', async () => {
    const { bench } = await example('moss-without-ammonium', 'moss');
    const tally: Record<string, number> = {};
    for (const { seed, request } of await shelves()) {
      for (const most of [1, 2, 3]) {
        const came = await holds(request, bench.kit, most, `${seed} ${most}`);
        tally[typeof came === 'number' ? 'more' : came] = (tally[typeof came === 'number' ? 'more' : came] ?? 0) + 1;
        const does = await someChoice(request, most);
        expect(came === 'made', `${seed} ${most}`).toBe(does);
        if (typeof came !== 'number') continue;
        expect(await someChoice(request, came), `${seed} ${came}`).toBe(true);
        expect(await someChoice(request, came - 1), `${seed} ${came - 1}`).toBe(false);
      }
    }
    expect(tally.made).toBeGreaterThan(seeds(3, 5));
    expect(tally.none).toBeGreaterThan(2);
    expect(tally.more).toBeGreaterThan(seeds(1, 2));
  });
});

/** Shelves whose feeds take several products, others that do with one, and some that make none: by trying each choice. */
async function shelves(): Promise<{ seed: number; request: FeedRequest }[]> {
  const left: Record<string, number> = { several: seeds(2, 3), one: seeds(1, 2), none: 1 };
  const found: { seed: number; request: FeedRequest }[] = [];
  for (let seed = 7_300; Object.values(left).some((count) => count > 0); seed += 1) {
    const made = randomBench(seed, 4 + (seed % 4));
    // nothing for sale: what could be bought is asked of the feed elsewhere, and takes most of the time
    const request = { ...made, market: [], header: { ...made.header, batchLitres: litres(4) } };
    const kind = (await someChoice(request, 1)) ? 'one' : (await someChoice(request, 99)) ? 'several' : 'none';
    if (left[kind]! <= 0) continue;
    left[kind]! -= 1;
    found.push({ seed, request });
  }
  return found;
}
