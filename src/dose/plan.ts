import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import { isMeasured } from './offered.js';
import { offersFor } from './offers.js';
import { ordered } from './ordered.js';
import { planOnce } from './plan-once.js';
import type { DosePlan, PlanOptions, Violation } from './plan-types.js';

export type * from './plan-types.js';

/** The limits that the doses do not keep. */
export const violationsOf = (plan: DosePlan): Violation[] => (plan.status === 'kept' ? [] : plan.violations);

/**
 * Doses that hands can measure, chosen for all items together: every band, cap and rule and the EC cap (by the full model) holds on what is
 * really measured, closest to the blend (the sum of the relative deviations), then with the fewest actions. Where no measures of the
 * kit hold, the doses of the least violation, and what would make it possible. Throws a Refusal where the feed has no batch size.
 * @param amounts the blend (or the nearest feed) per litre, in the order of the request's shelf
 */
export async function planDoses(
  request: FeedRequest,
  amounts: Amounts,
  kit: Kit,
  options: PlanOptions = {},
): Promise<DosePlan> {
  const plan = ordered(await planOnce(request, amounts, kit, options), amounts);
  if (options.offers === false || (plan.status === 'kept' && isMeasured(plan))) return plan;
  return { ...plan, offers: await offersFor(request, amounts, kit, options) };
}
