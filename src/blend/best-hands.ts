import { isMeasured as measuredByKit } from '../dose/offered.js';
import type { FeedRequest } from '../feed/request.js';
import type { FeedAsked, FeedPlan } from './feed-plan.js';
import { planCounted } from './iron-counted.js';

/** How doses are to be had: by a pen as far as it steers them, by measures of the kit alone, or (undefined) by whichever does. */
export type DosedBy = 'pen' | 'measure';

type Planned = Awaited<ReturnType<typeof planCounted>>;

/** So much more of the share a pen has to bring, unasked: a count is that uncertain. */
const BETTER = 0.02;

/**
 * The feed by measure; unasked by the pen, where nothing in the kit is fine enough for it and a pen makes more cans keep the limits.
 * @returns the hands that it is planned for beside it, and where a pen stood in for the kit, what the kit would have come to
 */
export async function inBestHands(
  request: FeedRequest,
  { by, pen, ...asked }: FeedAsked & { by?: DosedBy | undefined },
): Promise<{ planned: Planned; asked: FeedAsked; instead?: FeedPlan }> {
  const steered = { ...asked, pen };
  if (by === 'pen') return { planned: await planCounted(request, steered), asked: steered };
  const first = await planCounted(request, asked);
  if (by === 'measure' || !pen || !('plan' in first) || isFine(first)) return { planned: first, asked };
  const other = await planCounted(request, steered);
  const taken = 'plan' in other && other.plan.byPen !== undefined && isBetter(other, first);
  return taken ? { planned: other, asked: steered, instead: first } : { planned: first, asked };
}

/** Every item measured by the kit itself, and either cans enough that keep the limits or nothing that a pen would tell better. */
const isFine = (feed: FeedPlan): boolean =>
  isMeasured(feed) &&
  (feed.share >= feed.wanted || feed.plan.items.every(({ chosen: { sd, amount } }) => sd <= FINE * amount));

/** Relative standard deviation of a dose by the pen at its best (common practice, no source: two dips of a 2 % pen). */
const FINE = 0.05;

/** Every limit kept, with what stands in the kit. */
export const isMeasured = ({ plan }: FeedPlan): boolean => plan.status === 'kept' && measuredByKit(plan);

function isBetter(other: FeedPlan, first: FeedPlan): boolean {
  if (isMeasured(other) !== isMeasured(first)) return isMeasured(other);
  return other.share > first.share + BETTER;
}
