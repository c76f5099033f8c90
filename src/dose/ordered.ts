import type { Amounts } from '../can/mix-amounts.js';
import { partsOf, watersOf } from '../can/part.js';
import { sequenceOf } from '../can/sequence.js';
import type { DosePlan, TrialPlan } from './plan-types.js';

/**
 * A plan with its items in the order in which they go into the can: that of the blend, so that blend, sheet and meter speak of the same
 * first item, as long as the measured doses stay as clear in it.
 * @param blend what was to be measured out
 */
export function ordered(plan: TrialPlan, blend: Amounts): DosePlan {
  const { shelf, waters, temperatureC } = plan.request;
  const used = watersOf(blend, waters);
  const told = plan.byPen
    ? plan.items.map(({ product }) => product.id)
    : sequenceOf(partsOf(blend, shelf), used, { temperatureC }).turns.map(({ product }) => product.id);
  // readings of the pen are totals in the full can
  const full = plan.byPen !== undefined;
  const sequence = sequenceOf(partsOf(plan.amounts, shelf), used, { temperatureC, told, full });
  const place = new Map(sequence.turns.map(({ product }, i) => [product.id, i]));
  const sorted = <T>(items: readonly T[], id: (item: T) => string): T[] =>
    [...items].sort((a, b) => place.get(id(a))! - place.get(id(b))!);
  return {
    ...plan,
    items: sorted(plan.items, ({ product }) => product.id),
    mix: { ...plan.mix, items: sorted(plan.mix.items, ({ id }) => id) },
    sequence,
  };
}
