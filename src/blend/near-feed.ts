import type { Amounts } from '../can/mix-amounts.js';
import { withoutCustom } from '../feed/grade.js';
import type { FeedHeader } from '../feed/header.js';
import type { Proof } from '../feed/proof.js';
import { type Contents, readContents } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { closest } from '../formulation/index.js';
import { nearestMix } from '../why/nearest.js';
import { withGrades } from './feed-plan.js';
import { nearOf, type Near, sizedFor } from './given.js';
import { nearRequest } from './near-width.js';
import { quickWidths } from './quick-width.js';

/**
 * The mix that a feed is measured out from, before any kit is asked: mg/L, shares of nitrogen, mS/cm at 25 °C. `none`: no mix keeps every
 * limit that hurts or is needed, and what misses least stands instead, where there is any.
 */
export type NearFeed = { feed: FeedHeader } & (
  | { status: 'near'; near: Near; contents: Contents; amounts: Amounts; proof: Proof }
  | { status: 'none' | 'open'; contents: Contents | null; proof: Proof }
);

/** How near it is wanted. */
export interface NearFeedAsked {
  want: 'near' | 'closest';
  /** Times the usual widths around the aims. */
  factor: number;
}

/**
 * The cheapest mix within the widths of the plan (with `closest` the one that misses least within them), by the very programs that the doses
 * begin with. What follows there — sure cans, thrift, iron that its chelate does not hold, steps of the kit — is left out.
 * @param width seeks the least widths: the same for all places of a slider
 */
export async function nearFeed(request: FeedRequest, asked: NearFeedAsked, width = quickWidths()): Promise<NearFeed> {
  const sized = sizedFor(request);
  const feed = sized.header;
  const { within, nearest } = await withGrades(sized, asked, width);
  if (!('found' in nearest)) {
    const { answer, proof } = nearest;
    const contents = await nearestMix({ ...sized, programme: withoutCustom(sized.programme) });
    return { status: answer === 'none' ? 'none' : 'open', feed, contents, proof };
  }
  const held = asked.want === 'closest' ? await closest(nearRequest(within, nearest.asked)) : nearest.found;
  const { amounts, proof } = held.answer === 'found' ? held : nearest.found;
  const contents = readContents(amounts, sized);
  return { status: 'near', feed, near: nearOf(nearest, contents, sized), contents, amounts, proof };
}
