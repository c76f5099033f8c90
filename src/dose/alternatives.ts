import type { PowderKnown } from '../label/product.js';
import type { OpenItem } from './choose.js';
import { type Measure, measuresOf } from './measure.js';
import type { Alternative } from './plan-types.js';
import { paperTools, type Tool } from './tools.js';

/** How near an alternative must be to be one: within a quarter of the dose. */
const NEAR = 0.25;

/** The nearest measure of every tool other than the chosen one, and plain grams or millilitres for who has other tools. */
export function alternativesOf(
  { product }: OpenItem,
  chosen: Measure,
  { tools, known }: { tools: readonly Tool[]; known: readonly PowderKnown[] },
  keeps: (amount: number) => boolean,
): Alternative[] {
  if (chosen.amount === 0) return [];
  const near = measuresOf(product, tools, chosen.amount, known).filter(
    (m) => m.tool !== chosen.tool && Math.abs(m.amount - chosen.amount) <= NEAR * chosen.amount,
  );
  const best = new Map<Measure['tool'], Alternative>();
  for (const measure of near) {
    const alternative = { ...measure, keeps: keeps(measure.amount) };
    const other = best.get(measure.tool);
    if (!other || (alternative.keeps && !other.keeps)) best.set(measure.tool, alternative);
  }
  const plain = product.form === 'powder' ? 'scale' : 'syringe';
  if (chosen.tool !== plain && !best.has(plain)) {
    const written = measuresOf(product, paperTools, chosen.amount, known).find((m) => m.tool === plain);
    if (written && Math.abs(written.amount - chosen.amount) <= NEAR * chosen.amount)
      best.set(plain, { ...written, keeps: keeps(written.amount) });
  }
  return ORDER.flatMap((tool) => best.get(tool) ?? []);
}

const ORDER: readonly Measure['tool'][] = ['spoon', 'syringe', 'dropper', 'scale', 'pen', 'stock'];
