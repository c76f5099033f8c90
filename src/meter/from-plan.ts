import type { Litres } from '../units/index.js';
import type { RecipeLine } from '../advice/recipe.js';
import type { DosePlan } from '../dose/plan-types.js';
import { sequenceOf } from '../can/sequence.js';
import { blendOf } from '../sheet/steps.js';
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
        full,
      };
    }),
  };
}

/** A recipe of the grower's own as a batch. Hands are taken to be off by a tenth where nothing is known of how they measured (level spoons, from memory). */
export function batchOfRecipe(
  lines: readonly Pick<RecipeLine, 'product' | 'amount' | 'amountWords' | 'bySpoon' | 'byPen'>[],
  litres: Litres,
  waters: { water: Water; share: number }[],
): Batch {
  const amounts = new Map<string, (typeof lines)[number] & { sd: number }>();
  for (const told of lines) {
    const line = { ...told, sd: told.byPen?.sd ?? told.amount * (told.bySpoon ? SPOON : WEIGHED) };
    const before = amounts.get(line.product.id);
    amounts.set(line.product.id, {
      ...line,
      amount: line.amount + (before?.amount ?? 0),
      amountWords: before ? `${before.amountWords} + ${line.amountWords}` : line.amountWords,
      bySpoon: line.bySpoon || (before?.bySpoon ?? false),
      // of one spoon twice both are off alike; the pen makes good what went in before it
      sd: line.byPen?.told.by === 'until' ? line.sd : line.sd + (before?.sd ?? 0),
    });
  }
  const merged = [...amounts.values()];
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

const SPOON = 0.1;
const WEIGHED = 0.03;
