import { holdsIronAt, type IronLine } from '../can/iron.js';
import { TRACE_WIDTH } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import type { ClosedProduct } from '../label/closed-product.js';
import { type FeedAsked, type FeedPlan, planFeed } from './feed-plan.js';

/** Passes until iron is counted by what holds at the pH of the mix itself. */
const PASSES = 3;

/**
 * The feed to give, with iron counted where its chelate holds: where it does not at the pH of the mix found, and another on the shelf does,
 * the same is planned again without it; the certificate is of the last program.
 */
export async function planCounted(request: FeedRequest, asked: FeedAsked): ReturnType<typeof planFeed> {
  let planned = await planFeed(request, asked);
  for (let pass = 1; pass <= PASSES && 'plan' in planned; pass += 1) {
    const counted = ironCounted(planned.request, planned.plan.mix.iron);
    const again = counted && (await planFeed(counted, asked));
    if (!again || !('plan' in again) || isWorse(again, planned)) break;
    planned = again;
  }
  return planned;
}

/** No limit that hurts or is needed is broken for the sake of iron. */
const isWorse = (again: FeedPlan, before: FeedPlan): boolean =>
  again.plan.status === 'violated' && before.plan.status !== 'violated';

/** The request with lost iron counted as none; null where what holds is enough for the least and near the aim, or nothing else would help. */
function ironCounted(request: FeedRequest, iron: IronLine | null): FeedRequest | null {
  const { min = 0, aim = 0 } = request.programme.bands.Fe ?? {};
  if (iron === null || iron.held >= Math.max(min, aim / TRACE_WIDTH)) return null;
  return withIronThatHolds(request, iron.pH);
}

/**
 * The request with the iron that does not hold at a pH counted as none, in leasts and near the aim; null where all of it holds, or nothing on
 * the shelf brings iron that does.
 */
export function withIronThatHolds(request: FeedRequest, pH: number): FeedRequest | null {
  const counts = ({ composition }: ClosedProduct): boolean => composition.content.Fe.low > 0;
  const isLost = (product: ClosedProduct): boolean => counts(product) && !holdsIronAt(product, pH);
  const holds = request.shelf.some((p) => p.onHand !== 0 && counts(p) && holdsIronAt(p, pH));
  if (!holds || !request.shelf.some(isLost)) return null;
  return { ...request, shelf: request.shelf.map((p) => (isLost(p) ? p.withIronNotCounted() : p)) };
}
