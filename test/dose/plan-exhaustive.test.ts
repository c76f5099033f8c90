import { describe, expect, it } from 'vitest';
import type { Kit } from '../../src/catalog/bench-types.js';
import { type DosePlan, planDoses, violationsOf } from '../../src/dose/plan.js';
import { closeShelf } from '../../src/label/close.js';
import type { Amounts } from '../../src/can/mix-amounts.js';
import { missesOf, readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { solveFeed } from '../../src/formulation/solve-feed.js';
import { benches } from '../feed/random-benches.js';
import { endsOf } from './ends.js';
import { SPOONS, USUAL } from './kits.js';
import { searchOf } from './search-of.js';
import { openTo } from './open-to.js';
import { tryAll } from './try-all.js';
import { tryRanges } from './try-all-ranges.js';
import { seeds } from '../seeds.js';

const BENCHES = seeds(105, 210);
/** Doses with fewer actions go before others that are closer by less; so much of a deviation is even. */
const EVEN = 2e-5;
/** Combinations that nested loops are through with in a moment. */
const FEW = 5e3;

describe('seeded benches of 4 L', async () => {
  const blends = await provedBlends(BENCHES);
  const plans = new Map<string, Promise<DosePlan>>();
  const planned = ({ seed, request, amounts }: (typeof blends)[number], kit: Kit): Promise<DosePlan> => {
    const key = `${seed} ${kit === USUAL}`;
    const plan = plans.get(key) ?? planDoses(request, amounts, kit, { offers: false });
    plans.set(key, plan);
    return plan;
  };

  it('are enough', () => expect(blends.length).toBeGreaterThanOrEqual(0.95 * BENCHES));

  it.each([
    ['a usual kit', USUAL],
    ['spoons and a syringe', SPOONS],
  ])('every limit holds on what is measured with %s, or is named', async (_, kit) => {
    let kept = 0;
    for (const bench of blends) {
      const { request, amounts } = bench;
      const plan = await planned(bench, kit);
      // read out afresh from the words of the doses
      const mix = readOut(perLitre(plan.items, request, amounts), request);
      expect(missesOf(mix)).toEqual(violationsOf(plan));
      expect(plan.status).toBe(missesOf(mix).length === 0 ? 'kept' : 'violated');
      for (const { chosen } of plan.items) expect(chosen.amount).toBeGreaterThan(0);
      if (plan.status === 'kept') kept += 1;
    }
    expect(kept).toBeGreaterThan(kit === USUAL ? 0.8 * blends.length : 0.5 * blends.length);
  });

  it.each([
    ['a usual kit', USUAL],
    ['spoons and a syringe', SPOONS],
  ])(
    'of up to five items, every one: %s finds the closest doses that hold where there are any, by trying all',
    async (_, kit) => {
      let compared = 0;
      let impossible = 0;
      for (const bench of blends) {
        const { request, amounts, seed } = bench;
        const items = openTo(request, amounts, kit);
        if (items.length > 5 || items.length === 0) continue;
        const plan = await planned(bench, kit);
        // nothing farther off than what was found need be tried; where nothing was found, all is
        const within = plan.status === 'kept' ? searchOf(plan).deviation * (1 + EVEN) + EVEN : Number.POSITIVE_INFINITY;
        const { best } = tryRanges(request, amounts, items, within);
        expect([seed, plan.proof.by, plan.status]).toEqual([seed, 'all', best ? 'kept' : 'violated']);
        if (best) {
          expect(Math.abs(best.deviation - searchOf(plan).deviation)).toBeLessThanOrEqual(EVEN * (1 + best.deviation));
          expect(brokenEnds(plan, request, amounts)).toEqual([]);
        } else impossible += 1;
        compared += 1;
      }
      // none is left out: the others take six items and more, or nothing but water
      expect(compared).toBeGreaterThanOrEqual(BENCHES / 3);
      expect(impossible).toBeGreaterThan(BENCHES / 42);
    },
  );

  it('and the trying by ranges agrees with nested loops over everything, where those are few', () => {
    let [some, none] = [0, 0];
    for (const { request, amounts, seed } of blends) {
      for (const kit of [USUAL, SPOONS]) {
        const items = openTo(request, amounts, kit);
        if (items.length === 0 || items.reduce((product, item) => product * item.amounts.length, 1) > FEW) continue;
        const [loops, ranges] = [tryAll(request, amounts, items), tryRanges(request, amounts, items).best];
        expect([seed, ranges === null]).toEqual([seed, loops === null]);
        if (loops) expect(ranges!.deviation).toBeCloseTo(loops.deviation, 9);
        if (loops) some += 1;
        else none += 1;
      }
    }
    expect(some).toBeGreaterThan(BENCHES / 5.25);
    expect(none).toBeGreaterThan(BENCHES / 10.5);
  });
});

/** Limits that the doses of a plan break, summed up from the labels; EC by the full model. */
function brokenEnds({ items, mix }: DosePlan, request: FeedRequest, amounts: Amounts): string[] {
  const { products } = perLitre(items, request, amounts);
  const broken = endsOf(request, amounts)
    .filter(({ of, water, most }) => products.reduce((sum, x, i) => sum + (x > 0 ? x * of(i) : 0), water) > most)
    .map(({ name }) => name);
  return mix.ec.mSPerCm > (mix.ec.cap?.bound ?? Number.POSITIVE_INFINITY) * (1 + 1e-6) ? [...broken, 'EC'] : broken;
}

async function provedBlends(count: number): Promise<{ seed: number; request: FeedRequest; amounts: Amounts }[]> {
  const found: { seed: number; request: FeedRequest; amounts: Amounts }[] = [];
  for (const { seed, request: open } of await benches(count, true, 1)) {
    const goal = seed % 2 === 0 ? 'cheapest' : 'closest';
    const request: FeedRequest = { ...open, goal, shelf: await closeShelf(open.shelf) };
    const answer = await solveFeed(request);
    if (answer.answer === 'found') found.push({ seed, request, amounts: answer.amounts });
  }
  return found;
}

function perLitre(
  items: readonly { product: { id: string }; chosen: { amount: number } }[],
  request: FeedRequest,
  { waters }: Amounts,
): Amounts {
  const doses = new Map(items.map((item) => [item.product.id, item.chosen.amount]));
  return { products: request.shelf.map((p) => (doses.get(p.id) ?? 0) / request.header.batchLitres!), waters };
}
