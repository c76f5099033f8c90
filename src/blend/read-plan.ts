import type { Amounts } from '../can/mix-amounts.js';
import { withReading } from '../chance/reading.js';
import { ordered } from '../dose/ordered.js';
import type { DosePlan, TrialPlan } from '../dose/plan-types.js';
import { readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { counted, missesByGrade } from './handed.js';

/** Doses in their order, read by the limits of the feed itself; leasts that only convention stands behind are told apart. */
export function readPlan(
  made: TrialPlan,
  amounts: Amounts,
  request: FeedRequest,
): { plan: DosePlan; custom: ReturnType<typeof missesByGrade>['custom'] } {
  const inOrder = ordered({ ...made, request }, amounts);
  const mix = withReading(readOut(inOrder.amounts, request, inOrder.sequence.turns), inOrder, request);
  const { custom, graver } = missesByGrade(mix, request);
  const own = { ...inOrder, mix, request: counted(request, inOrder) };
  const plan: DosePlan =
    graver.length === 0 ? withoutViolations(own) : { ...own, status: 'violated', violations: graver, offers: [] };
  return { plan, custom };
}

function withoutViolations(plan: DosePlan): DosePlan {
  if (plan.status === 'kept') return plan;
  const { violations: _, offers: __, ...rest } = plan;
  return { ...rest, status: 'kept' };
}
