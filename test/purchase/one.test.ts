import { describe, expect, it } from 'vitest';
import type { LinearProgram } from '../../solver/index.js';
import { partitionsInto } from '../../src/blend/one/groups.js';
import type { OneResult } from '../../src/blend/one/one-types.js';
import { MOST_STRETCH } from '../../src/blend/one/shared-plan.js';
import { type Sharing, sharings } from '../../src/blend/one/shared-request.js';
import { buyOneFor } from '../../src/desk/buy.js';
import { oneForBench } from '../../src/desk/one.js';
import { withoutCustom } from '../../src/feed/grade.js';
import { withoutEcCap } from '../../src/feed/request.js';
import { heldNear, ROOM } from '../../src/purchase/held.js';
import { onePurchase } from '../../src/purchase/one/one-purchase.js';
import { poolOf } from '../../src/purchase/pool.js';
import type { PurchaseRequest } from '../../src/purchase/types.js';
import { buyOneShape } from '../../src/report/buy-one-shape.js';
import { buyOneSheet } from '../../src/report/buy-one.js';
import { buyOneJson } from '../../src/report/json/buy-one.js';
import { litres } from '../../src/units/index.js';
import { jointProgram, sharedBench } from '../blend/one/shared-benches.js';
import { exampleFiles } from '../desk/benches.js';
import { plainHighs } from '../proof/plain-highs.js';
import { dice } from '../solver/dice.js';

const MARKETS = 24;
const MOST_PACKS = 3;

/** Two or three feeds on a shelf of which a part is for sale in few packs; null where there is nothing to share. */
async function smallMarket(seed: number): Promise<PurchaseRequest | null> {
  const d = dice(seed);
  const group = (await sharedBench(seed, withoutEcCap)).slice(0, 3);
  if (group.length < 2) return null;
  const feeds = group.map(({ request }) => ({ request, weeklyLitres: litres(d.whole(1, 20)) }));
  const [first] = group as [Sharing];
  const plain = first.request.shelf.map((product) => product.with({ onHand: undefined, maxRate: undefined }));
  const sold = plain.filter(() => d.chance(0.4)).slice(0, 3);
  const all = feeds.reduce((sum, { weeklyLitres }) => sum + weeklyLitres, 0);
  return {
    feeds: feeds.map(({ request, weeklyLitres }) => ({ request: { ...request, shelf: [] }, weeklyLitres })),
    weeks: 26,
    shelf: plain.filter((product) => !sold.includes(product) && d.chance(0.8)),
    // so large that three packs are enough of anything
    market: sold.map((p, i) => p.with({ pack: d.between(1, 4) * all * 26, price: d.whole(2, 30) + 0.01 * i })),
    marketName: 'market',
    currency: 'EUR',
    ...(d.chance(0.3) ? { atMost: d.whole(0, 2) } : {}),
  };
}

/** Fewest mixes, and of those the least money for packs: every way of sharing, every count of packs, each judged by a program of its own. */
async function bruteForce(asked: PurchaseRequest): Promise<{ mixes: number; spend: number } | null> {
  const pool = poolOf(asked);
  const held = (await heldNear(asked, 1, {}))!;
  if (held.near.includes(null)) return null;
  const shelf = pool.map(({ product }) => product);
  const one = asked.feeds.map(({ request }, f) => ({
    request: { ...request, programme: withoutCustom(request.programme), shelf },
    own: held.near[f]!,
  }));
  const counts = pool.reduce<number[][]>(
    (ways, { offer }) => ways.flatMap((way) => (offer ? [0, 1, 2, 3] : [0]).map((n) => [...way, n])),
    [[]],
  );
  const money = (way: number[]): number => way.reduce((sum, n, i) => sum + n * (pool[i]!.offer?.price ?? 0), 0);
  const allowed = counts
    .filter(
      (way) => asked.atMost === undefined || way.filter((n, i) => n > 0 && !pool[i]!.isOnShelf).length <= asked.atMost,
    )
    .sort((a, b) => money(a) - money(b));
  for (let mixes = 1; mixes <= one.length; mixes += 1) {
    let least = Number.POSITIVE_INFINITY;
    for (const partition of partitionsInto(
      one.map((_, i) => i),
      mixes,
    )) {
      const groups = partition.map((members) => sharings(members.map((i) => one[i]!)));
      // more packs never do harm: what all of them cannot, none can
      if (
        !(await does(
          asked,
          groups,
          pool.map(({ offer }) => (offer ? MOST_PACKS : 0)),
        ))
      )
        continue;
      const fails: number[][] = [];
      for (const way of allowed) {
        if (money(way) >= least) break;
        if (fails.some((failed) => way.every((n, i) => n <= failed[i]!))) continue;
        if (await does(asked, groups, way)) least = money(way);
        else fails.push(way);
      }
    }
    if (Number.isFinite(least)) return { mixes, spend: least };
  }
  return null;
}

async function does(asked: PurchaseRequest, groups: readonly Sharing[][], way: readonly number[]): Promise<boolean> {
  const pool = poolOf(asked);
  const program: LinearProgram = { columns: [], rows: [] };
  const use: Record<string, number>[] = pool.map(() => ({}));
  groups.forEach((group, g) => {
    const { columns, rows } = jointProgram(group, group.length === 1 ? ROOM : MOST_STRETCH);
    const named = (terms: Readonly<Record<string, number>>) =>
      Object.fromEntries(Object.entries(terms).map(([id, a]) => [`${g}${id}`, a]));
    program.columns.push(...columns.map((column) => ({ ...column, id: `${g}${column.id}`, cost: 0 })));
    program.rows.push(...rows.map((row) => ({ ...row, id: `${g}${row.id}`, terms: named(row.terms) })));
    const weekly = (name: string) => asked.feeds.find((f) => f.request.header.name === name)!.weeklyLitres;
    const mixed = group.reduce((sum, { request, parts }) => sum + 26 * parts.share * weekly(request.header.name), 0);
    pool.forEach((_, i) => {
      use[i]![`${g}p${i}`] = mixed;
    });
  });
  pool.forEach(({ onHand, offer }, i) => {
    if (onHand !== null)
      program.rows.push({ id: `stock${i}`, upper: onHand + way[i]! * (offer?.pack ?? 0), terms: use[i]! });
  });
  return (await plainHighs(program)).verdict === 'optimal';
}

/** No doses: the search for packs alone. */
const none: OneResult = {
  status: 'none',
  currency: 'EUR',
  mixes: [],
  apart: [],
  isFewest: true,
  without: [],
  cost: { one: 0, separate: 0, over: 'year' },
  separate: [],
  assumed: { kit: false, batch: false },
  cautions: [],
};

describe('a purchase for one mix', () => {
  it(`is what going through every way of sharing and every pack finds, on ${MARKETS} small markets`, async () => {
    const seen = { one: 0, several: 0, bought: 0, none: 0 };
    let tried = 0;
    for (let seed = 1; tried < MARKETS; seed += 1) {
      const asked = await smallMarket(seed);
      if (asked === null) continue;
      tried += 1;
      const result = await onePurchase(asked, async () => none, { beside: false });
      const judge = await bruteForce(asked);
      if (judge === null) {
        expect(result.status, `seed ${seed}`).not.toBe('made');
        seen.none += 1;
        continue;
      }
      if (result.status !== 'made') throw new Error(`seed ${seed}: ${result.status}, and ${JSON.stringify(judge)}`);
      const { settled } = result.proof;
      expect(settled.question === 'purchase' && settled.mixes!.length, `seed ${seed}`).toBe(judge.mixes);
      expect(result.spend, `seed ${seed}`).toBeCloseTo(judge.spend, 6);
      expect(result.proof.verdict).toBe('optimal');
      for (const { why, proof } of result.apart) if (why.kind === 'limits') expect(proof.verdict).toBe('infeasible');
      seen[judge.mixes === 1 ? 'one' : 'several'] += 1;
      if (judge.spend > 0) seen.bought += 1;
    }
    expect(Math.min(seen.one, seen.several, seen.bought), JSON.stringify(seen)).toBeGreaterThan(2);
  });

  it('ends with the mix that blend --one gives from the same packs, as it is published', async () => {
    const files = exampleFiles('what-to-buy');
    const { met, result } = await buyOneFor(files, { one: true });
    const told = buyOneShape.parse(buyOneJson(result));
    expect(met).toBe(true);
    expect(told.status).toBe('optimal');
    expect(told.one!.mixes.map(({ dilutions }) => dilutions.map(({ feed }) => feed))).toEqual([['bark', 'moss']]);
    for (const { dilutions } of told.one!.mixes)
      for (const { sure, misses } of dilutions) {
        expect(sure).toBeGreaterThanOrEqual(0.9);
        expect(misses).toEqual([]);
      }
    for (const { used, onHand, bought } of told.stock)
      if (onHand !== null) expect(used).toBeLessThanOrEqual((onHand + bought) * (1 + 1e-6));
    expect(buyOneSheet(result).title).toMatch(
      /^Buy .*EUR for 26 weeks.*one mix for bark and moss: at least 9\d of 100 cans/,
    );
    // with the packs on the shelf
    const rows = told.packs.map(({ id }) => id);
    const again = await oneForBench(files, { one: true, with: rows });
    expect(again.result.mixes[0]!.plan.items.map(({ product, chosen }) => [product.id, chosen.words])).toEqual(
      result.status === 'made' &&
        result.one.mixes[0]!.plan.items.map(({ product, chosen }) => [product.id, chosen.words]),
    );
  });
});
