import { describe, expect, it } from 'vitest';
import type { Kit } from '../../src/catalog/bench-types.js';
import { measuresWithin } from '../../src/dose/measure.js';
import { type DosePlan, planDoses } from '../../src/dose/plan.js';
import { toolsOf } from '../../src/dose/tools.js';
import { amountsOf } from '../../src/formulation/amounts.js';
import { closeShelf } from '../../src/formulation/close.js';
import type { Amounts } from '../../src/formulation/mix-amounts.js';
import { missesOf, readOut } from '../../src/formulation/readout.js';
import type { FeedRequest } from '../../src/formulation/request.js';
import { solveUnderCap } from '../../src/formulation/solve-goal.js';
import { benches } from '../formulation/random-benches.js';
import { SPOONS, USUAL } from './kits.js';
import { tryAll } from './try-all.js';

const BENCHES = 210;
/** Combinations beyond which trying all would take minutes for one bench. */
const MOST = 1e8;

describe('seeded benches of 4 L', async () => {
  const blends = await provedBlends(BENCHES);
  const plans = new Map<string, Promise<DosePlan>>();
  const planned = ({ seed, request, amounts }: (typeof blends)[number], kit: Kit): Promise<DosePlan> => {
    const key = `${seed} ${kit === USUAL}`;
    const plan = plans.get(key) ?? planDoses(request, amounts, kit, { offers: false });
    plans.set(key, plan);
    return plan;
  };

  it('are enough', () => expect(blends.length).toBeGreaterThanOrEqual(200));

  it.each([
    ['a usual kit', USUAL],
    ['spoons and a syringe', SPOONS],
  ])(
    'every limit holds on what is measured with %s, or is named',
    async (_, kit) => {
      let kept = 0;
      for (const { request, amounts } of blends) {
        const plan = await planDoses(request, amounts, kit, { offers: false });
        // read out afresh from the words of the doses
        const mix = readOut(perLitre(plan.items, request, amounts), request);
        expect(missesOf(mix)).toEqual(plan.misses);
        expect(plan.status).toBe(plan.misses.length === 0 ? 'kept' : 'missed');
        for (const { chosen } of plan.items) expect(chosen.amount).toBeGreaterThan(0);
        if (plan.status === 'kept') kept += 1;
      }
      expect(kept).toBeGreaterThan(kit === USUAL ? 0.8 * blends.length : 0.5 * blends.length);
    },
    120_000,
  );

  it.each([
    ['a usual kit', USUAL, 65],
    ['spoons and a syringe', SPOONS, 70],
  ] as const)(
    'of up to five items: %s finds the closest doses that hold wherever there are any, by trying all',
    async (_, kit, least) => {
      let compared = 0;
      let beyond = 0;
      let impossible = 0;
      for (const bench of blends) {
        const { request, amounts, seed } = bench;
        const items = openMeasures(request, amounts, kit);
        if (items.length > 5 || items.length === 0) continue;
        const plan = await planned(bench, kit);
        const within = plan.status === 'kept' ? plan.proof.deviation * (1 - 1e-6) : Number.POSITIVE_INFINITY;
        if (combinations(items, within) > MOST) {
          beyond += 1;
          continue;
        }
        const best = tryAll(request, amounts, items, within);
        // with `within` just below what the plan found, nothing may be left to find
        expect([seed, best]).toEqual([seed, null]);
        compared += 1;
        if (plan.status === 'missed') impossible += 1;
      }
      expect(compared).toBeGreaterThanOrEqual(least);
      expect(beyond).toBeLessThanOrEqual(0.1 * compared);
      expect(impossible).toBeGreaterThan(5);
    },
    300_000,
  );
});

async function provedBlends(count: number): Promise<{ seed: number; request: FeedRequest; amounts: Amounts }[]> {
  const found: { seed: number; request: FeedRequest; amounts: Amounts }[] = [];
  for (const { seed, request: open } of await benches(count, true, 1)) {
    const goal = seed % 2 === 0 ? 'cheapest' : 'closest';
    const request: FeedRequest = { ...open, goal, shelf: await closeShelf(open.shelf) };
    const { verdict, formulated } = (await solveUnderCap(request)).result;
    if (verdict.verdict === 'optimal') found.push({ seed, request, amounts: amountsOf(verdict, formulated) });
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

/** Leaving it out, and every measure up to ten times the blend's dose (or all there are below the label's and the stock's ceiling). */
function openMeasures(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
): { shelf: number; wanted: number; amounts: number[] }[] {
  const batch = request.header.batchLitres!;
  return amounts.products.flatMap((x, shelf) => {
    if (!(x > 1e-12)) return [];
    const product = request.shelf[shelf]!;
    const ceiling = Math.min(
      product.onHand ?? Number.POSITIVE_INFINITY,
      (product.maxRate ?? Number.POSITIVE_INFINITY) * batch,
    );
    const tools = toolsOf(kit).filter((tool) => product.form === 'powder' || tool.kind !== 'scale');
    const all = measuresWithin(product, tools, 0, Math.min(ceiling * (1 + 1e-9), 10 * x * batch));
    return [{ shelf, wanted: x * batch, amounts: [...new Set([0, ...all.map((m) => m.amount)])] }];
  });
}

/** How many combinations lie within a deviation, at most: those of the nearest measures of each item. */
function combinations(items: readonly { wanted: number; amounts: readonly number[] }[], within: number): number {
  return items.reduce(
    (product, { wanted, amounts }) =>
      product * amounts.filter((amount) => Math.abs(amount - wanted) / wanted < within).length,
    1,
  );
}
