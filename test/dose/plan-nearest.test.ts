import { describe, expect, it } from 'vitest';
import { planDoses } from '../../src/dose/plan.js';
import { amountsOfMix } from '../../src/dose/wanted.js';
import { closeShelf } from '../../src/label/close.js';
import type { Amounts } from '../../src/can/mix-amounts.js';
import { nearestMix } from '../../src/why/nearest.js';
import { missesOf, readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Mix } from '../../src/feed/results.js';
import { benches } from '../feed/random-benches.js';
import { type End, endsOf } from './ends.js';
import { SPOONS, USUAL } from './kits.js';
import { searchOf } from './search-of.js';
import { openTo } from './open-to.js';
import { tryRanges } from './try-all-ranges.js';
import { missName } from '../../src/report/says/limits.js';

const BENCHES = 80;
/** Of a limit that is missed anyway, so much more is let pass for closer doses (the plan's own promise). */
const NOTICED = 0.01;
/** The least miss is sought to a hundredth, and another hundredth is given up for closer doses. */
const LESS = 0.97;
/** Doses with fewer actions go before others that are closer by less; so much of a deviation is even. */
const EVEN = 2e-5;

describe('doses of feeds that no mix can meet, against trying all of up to five items', async () => {
  const nearest = await nearestMixes(BENCHES);

  it.each([
    ['a usual kit', USUAL, [15, 15]],
    ['spoons and a syringe', SPOONS, [5, 10]],
  ] as const)(
    'with %s keep what the nearest mix keeps and miss the rest by no more, or by the least more',
    async (_, kit, [near, kept]) => {
      const seen = { near: 0, kept: 0, lost: 0 };
      for (const { seed, request, amounts } of nearest) {
        const as = asNear(request, amounts);
        const plan = await planDoses(request, amounts, kit, { offers: false });
        const items = openTo(request, amounts, kit, as(NOTICED, 0).ends);
        if (items.length === 0 || items.length > 5) continue;
        const all = (limits: Limits, within?: number) => tryRanges(request, amounts, items, within, limits).best;
        const holds = ({ ends, hold }: Limits): boolean =>
          hold(plan.mix) && ends.every((end) => sum(end, plan.amounts) <= end.most);
        expect([seed, plan.proof.by]).toEqual([seed, 'all']);
        if (holds(as(NOTICED, 0))) {
          seen.near += 1;
          // and nothing closer does
          const best = all(as(NOTICED, 0), searchOf(plan).deviation * (1 + EVEN) + EVEN)!;
          expect(Math.abs(best.deviation - searchOf(plan).deviation)).toBeLessThanOrEqual(EVEN * (1 + best.deviation));
          continue;
        }
        expect([seed, all(as(NOTICED, 0))]).toEqual([seed, null]);
        const worst = largestMiss(request, amounts, plan.amounts);
        if (holds(as(Number.POSITIVE_INFINITY, 0))) {
          seen.kept += 1;
          if (LESS * worst > NOTICED) expect([seed, all(as(LESS * worst, 0))]).toEqual([seed, null]);
        } else {
          seen.lost += 1;
          expect([seed, all(as(Number.POSITIVE_INFINITY, 0))]).toEqual([seed, null]);
          expect([seed, all(as(LESS * worst, LESS * worst))]).toEqual([seed, null]);
        }
      }
      expect(seen.near).toBeGreaterThan(near);
      expect(seen.kept).toBeGreaterThan(kept);
      expect(seen.lost).toBeGreaterThan(10);
    },
  );
});

async function nearestMixes(count: number): Promise<{ seed: number; request: FeedRequest; amounts: Amounts }[]> {
  const found: { seed: number; request: FeedRequest; amounts: Amounts }[] = [];
  for (const { seed, request: open } of await benches(count, false, 1)) {
    const request: FeedRequest = { ...open, shelf: await closeShelf(open.shelf) };
    const mix = await nearestMix(request);
    if (mix) found.push({ seed, request, amounts: amountsOfMix(mix, request) });
  }
  return found;
}

interface Limits {
  ends: End[];
  hold: (mix: Mix) => boolean;
}

/** The limits as the nearest mix leaves them: those it misses moved to where it stands and `more` of their numbers on, those it keeps by `lost`. */
function asNear(request: FeedRequest, amounts: Amounts): (more: number, lost: number) => Limits {
  const all = endsOf(request, amounts);
  const mix = readOut(amounts, request);
  const missed = new Set(missesOf(mix).map(({ limit }) => missName(limit)));
  const { cap: own, mSPerCm } = mix.ec;
  const max = own?.bound ?? null;
  return (more, lost) => ({
    ends: all.map((end) => {
      const value = sum(end, amounts);
      const out = value > end.most;
      const by = (out ? more : lost) * sizeOf(end, amounts);
      return { ...end, most: (out ? value : end.most) + Math.max(0, by) };
    }),
    hold: (other) => {
      const over = missed.has('EC max');
      const cap = max === null ? Number.POSITIVE_INFINITY : (over ? mSPerCm : max) + (over ? more : lost) * max;
      return (
        other.ec.mSPerCm <= cap * (1 + 1e-6) &&
        (lost > 0 || missesOf(other).every(({ limit }) => missed.has(missName(limit))))
      );
    },
  });
}

/** By how much of its size doses miss any limit at most, beyond what the nearest mix misses of it. */
function largestMiss(request: FeedRequest, amounts: Amounts, doses: Amounts): number {
  const of = (end: End): number => (sum(end, doses) - Math.max(end.most, sum(end, amounts))) / sizeOf(end, amounts);
  const { ec } = readOut(doses, request);
  const most = Math.max(ec.cap?.bound ?? Number.POSITIVE_INFINITY, readOut(amounts, request).ec.mSPerCm);
  return Math.max(...endsOf(request, amounts).map(of), ec.mSPerCm / most - 1);
}

/** What a miss is counted in: the limit's number; for a proportion the size of its terms in the nearest mix. */
const sizeOf = (end: End, { products }: Amounts): number =>
  end.bound === 0
    ? products.reduce((total, x, i) => total + Math.abs(x * end.of(i)), Math.abs(end.water) + 1e-9)
    : Math.abs(end.bound);

const sum = ({ of, water }: End, { products }: Amounts): number =>
  products.reduce((total, x, i) => total + (x > 0 ? x * of(i) : 0), water);
