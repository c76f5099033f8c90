import type { RecipeLine } from './recipe.js';

/** What hands do by a line of a recipe. */
export type RecipeDose = Pick<RecipeLine, 'product' | 'amount' | 'amountWords' | 'bySpoon' | 'byPen'>;

/**
 * The lines of a recipe with each product once, and its standard deviation, g or mL. Hands are taken to be off by a tenth where nothing is
 * known of how they measured (level spoons, from memory), and by 3 % where something was weighed.
 */
export function mergedLines(lines: readonly RecipeDose[]): (RecipeDose & { sd: number })[] {
  const amounts = new Map<string, RecipeDose & { sd: number }>();
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
  return [...amounts.values()];
}

const SPOON = 0.1;
const WEIGHED = 0.03;
