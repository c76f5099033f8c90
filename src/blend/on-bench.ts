import type { FeedRequest } from '../feed/request.js';
import { type DosedBy, inBestHands } from './best-hands.js';
import type { FeedAsked, FeedPlan } from './feed-plan.js';
import type { Assumed, WayOut } from './given-types.js';
import { byPenOffer, otherWays, wayOutOf, withoutWay } from './way-out.js';

/** A feed as all that stands on the bench makes it, with the hands that it is planned for beside it. */
export interface OnBench {
  planned: FeedPlan;
  hands: FeedAsked;
  /** Null where the kit alone makes it. */
  wayOut: WayOut | null;
}

/**
 * The plan of a feed by what stands on the bench: by the kit; where that is too coarse by a pen that is named, or by a way out for a kit that
 * was named, but for a pen that somebody asked for.
 * @returns the hands alone where there is no feed
 */
export async function planOnBench(
  sized: FeedRequest,
  { by, litresPerYear, ...asked }: FeedAsked & { by?: DosedBy | undefined; litresPerYear?: number | null | undefined },
  assumed: Pick<Assumed, 'kit'>,
): Promise<OnBench | Pick<OnBench, 'hands'>> {
  const { planned: first, asked: hands, instead } = await inBestHands(sized, { ...asked, by });
  if (!('plan' in first)) return { hands };
  // a pen that is at hand may steer what a way out leaves to it
  const steered = by === undefined ? { ...hands, pen: asked.pen } : hands;
  const way = instead
    ? { planned: first, way: byPenOffer(first) }
    : by === 'pen' || assumed.kit
      ? null
      : await wayOutOf(first, sized, { ...steered, litresPerYear: litresPerYear ?? null });
  if (way === null) return { planned: first, hands, wayOut: null };
  const kit = instead ?? first;
  const wayOut = {
    way: way.way,
    byPen: way.planned.plan.byPen !== undefined,
    without: withoutWay(kit),
    others: asked.offers ? await otherWays(kit, { ...hands, pen: undefined }, way.way.kind) : [],
  };
  return { planned: way.planned, hands, wayOut };
}
