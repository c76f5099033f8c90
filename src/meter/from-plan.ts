import type { DosePlan } from '../dose/plan-types.js';
import { sequenceOf } from '../can/sequence.js';
import { blendOf } from '../sheet/steps.js';
import type { Water } from '../label/product.js';
import type { ClosedProduct } from '../label/closed-product.js';
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
  lines: readonly { product: ClosedProduct; amount: number; words: string }[],
  litres: number,
  waters: { water: Water; share: number }[],
): Batch {
  const amounts = new Map<string, (typeof lines)[number]>();
  for (const line of lines) {
    const before = amounts.get(line.product.id);
    amounts.set(line.product.id, {
      ...line,
      amount: line.amount + (before?.amount ?? 0),
      words: before ? `${before.words} + ${amountOf(line)}` : amountOf(line),
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
      const { amount, words } = merged.find((line) => line.product.id === product.id)!;
      const bySpoon = /tsp|tbsp|spoon|cup/i.test(words);
      return { product, planned: amount, sd: amount * (bySpoon ? SPOON : WEIGHED), words, bySpoon, full };
    }),
  };
}

/** `1/4 tsp` of `1/4 tsp kno3`: the product is named beside it. */
function amountOf({ words, product }: { words: string; product: ClosedProduct }): string {
  const name = [product.id, product.name].find((n) => words.toLowerCase().endsWith(` ${n.toLowerCase()}`));
  return name === undefined ? words : words.slice(0, -name.length - 1).replace(/\s+of$/, '');
}

const SPOON = 0.1;
const WEIGHED = 0.03;
