import { PenProof } from '../../src/dose/proof.js';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import type { Measure } from '../../src/dose/measure.js';
import { planDoses } from '../../src/dose/plan.js';
import type { DosePlan } from '../../src/dose/plan-types.js';
import { toolsOf } from '../../src/dose/tools.js';
import { partsOf, watersOf } from '../../src/can/part.js';
import { sequenceOf } from '../../src/can/sequence.js';
import { readOut } from '../../src/feed/readout.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { solveFeed } from '../../src/formulation/solve-feed.js';
import { powder } from '../feed/fixtures.js';
import { randomBench } from '../feed/random-benches.js';
import { kitOf } from '../dose/kits.js';

/** Spoons to 1/32 tsp, a 0.01 g scale, a 1 mL syringe. */
export const usualKit = kitOf({
  spoons: [1, 1 / 2, 1 / 4, 1 / 8, 1 / 16, 1 / 32].map((tsp) => ({
    label: `${tsp} tsp`,
    millilitres: 4.92892159375 * tsp,
  })),
  scaleStepGrams: 0.01,
  syringeMillilitres: 1,
});

/** A pure substance of any contents, %. */
export const salt = (id: string, percent: Partial<Record<Nutrient, number>>): ClosedProduct =>
  powder(id, percent, { formula: 'KNO3' });

/** Seeded benches that can be met, with their plain doses. */
export async function plannedBenches(wanted: number, from: number): Promise<{ seed: number; plan: DosePlan }[]> {
  const found: { seed: number; plan: DosePlan }[] = [];
  for (let seed = from; found.length < wanted; seed += 1) {
    const made = randomBench(seed, 14);
    const answer = await solveFeed(made);
    if (answer.answer !== 'found') continue;
    found.push({ seed, plan: await planDoses(made, answer.amounts, usualKit, { offers: false }) });
  }
  return found;
}

/** A plan by hand: one measure for each product of the shelf. */
export function planOf(
  request: FeedRequest,
  doses: readonly { amount: number; sd: number; tool?: Measure['tool'] }[],
  waters: readonly number[] = [1],
): DosePlan {
  const litres = request.header.batchLitres!;
  const amounts = { products: doses.map(({ amount }) => amount / litres), waters: [...waters] };
  return {
    status: 'kept',
    batchLitres: litres,
    items: doses.map(({ amount, sd, tool = 'scale' }, i) => ({
      product: request.shelf[i]!,
      wanted: amount,
      chosen: { tool, words: `${amount} g`, amount, actions: 1, sd },
      alternatives: [],
    })),
    sequence: sequenceOf(partsOf(amounts, request.shelf), watersOf(amounts, request.waters)),
    leftOut: [],
    amounts,
    request,
    mix: readOut(amounts, request),
    actions: doses.length,
    tools: toolsOf(usualKit),
    notes: [],
    proof: PenProof.of(),
  };
}

/** The plan with every deviation of its doses so many times as large. */
export const scaled = (plan: DosePlan, times: number): DosePlan => ({
  ...plan,
  items: plan.items.map((item) => ({ ...item, chosen: { ...item.chosen, sd: item.chosen.sd * times } })),
});
