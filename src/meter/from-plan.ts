import type { Litres } from '../units/index.js';
import { mergedLines, type RecipeDose } from '../advice/merged-lines.js';
import { type Measure, toolInHand } from '../dose/measure.js';
import type { DosePlan } from '../dose/plan-types.js';
import { sequenceOf } from '../can/sequence.js';
import { lastingSpread } from '../chance/lasting.js';
import { blendOf } from '../sheet/steps.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Batch } from './batch.js';

/** The batch that a mixing sheet asks for: its measures, in its order, as full as the can is at each step. */
export function batchOfPlan(plan: DosePlan): Batch {
  const waters = blendOf(plan, plan.request);
  return {
    litres: plan.batchLitres,
    waters,
    items: plan.sequence.turns.map(({ product, full }) => {
      const { chosen, product: own } = plan.items.find((item) => item.product.id === product.id)!;
      return {
        product: own,
        planned: chosen.amount,
        sd: chosen.sd,
        words: chosen.words,
        bySpoon: chosen.tool === 'spoon',
        tool: toolInHand(chosen),
        lasting: lastingOf(own, chosen, plan),
        full,
      };
    }),
  };
}

/** What a dose is off by each time alike; out of a bottle as much as the bottle was filled. */
const lastingOf = (product: ClosedProduct, chosen: Measure, { tools }: Pick<DosePlan, 'tools'>): number =>
  chosen.bottle
    ? chosen.bottle.holds.sd / chosen.bottle.holds.amount
    : lastingSpread(product, toolInHand(chosen), tools);

/** A recipe of the grower's own as a batch. */
export function batchOfRecipe(
  lines: readonly RecipeDose[],
  litres: Litres,
  waters: { water: Water; share: number }[],
): Batch {
  const merged = mergedLines(lines);
  const { turns } = sequenceOf(
    merged.map(({ product, amount }) => ({ product, perLitre: amount / litres })),
    waters,
  );
  return {
    litres,
    waters,
    items: turns.map(({ product, full }) => {
      const { amount, amountWords: words, bySpoon, sd } = merged.find((line) => line.product.id === product.id)!;
      return { product, planned: amount, sd, words, bySpoon, full };
    }),
  };
}
