import type { GivenResult } from '../../blend/given.js';
import type { BlendResult, UnfedFeed } from '../../feed/results.js';
import type { PenScale } from '../../report/mix.js';
import { collecting } from '../collecting.js';
import { dosesOfFeed } from '../doses.js';
import { feedWishes } from '../feed-wishes.js';
import { feedRequests } from '../feed-requests.js';
import type { OpenBench } from '../opened.js';

/** What each feed of a bench comes to, in the order of the bench. */
export interface Cans {
  results: readonly (GivenResult | BlendResult)[];
  /** Feeds of plants that rest without any. */
  unfed: readonly UnfedFeed[];
  pen: PenScale | null;
}

/** The cans that a shelf makes, by the doses that `blendFeeds` gives; what more money or another product would do takes longer and is left to it. */
export async function cansOf(open: OpenBench): Promise<Cans> {
  const collected = collecting({}, {});
  const unfed: UnfedFeed[] = [];
  const requests = feedRequests(open, collected, {}, unfed);
  const which = feedWishes({}, collected);
  collected.settle();
  const results: (GivenResult | BlendResult)[] = [];
  for (const request of requests) results.push((await dosesOfFeed(request, open, which, { offers: true })).result);
  return { results, unfed, pen: open.pen };
}
