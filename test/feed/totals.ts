import type { Nutrient } from '../../src/chemistry/nutrients.js';
import type { DosePlan } from '../../src/dose/plan.js';
import type { FeedRequest } from '../../src/feed/request.js';

/** mg/L that a can guarantees of a nutrient, summed from the doses and the waters alone. */
export function independentTotals(plan: DosePlan, { waters }: Pick<FeedRequest, 'waters'>): (of: Nutrient) => number {
  return (nutrient) => {
    let sum = 0;
    for (const { product, chosen } of plan.items)
      sum += (chosen.amount * product.composition.content[nutrient].low) / plan.batchLitres;
    plan.amounts.waters.forEach((share, i) => {
      const { mgPerLitre } = waters[i]!;
      const forms = (['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const).reduce(
        (all, form) => all + (mgPerLitre[form] ?? 0),
        0,
      );
      sum += share * (mgPerLitre[nutrient] ?? (nutrient === 'N' ? forms : 0));
    });
    return sum;
  };
}
