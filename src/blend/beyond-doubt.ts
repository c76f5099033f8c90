import type { FeedRequest } from '../feed/request.js';
import { doubtedIn, overByName } from './doubted.js';
import { type GivenAsked, givenFeed, type GivenMade, type GivenResult } from './given.js';

/** So many cans do, as everywhere that a change is told. */
const ENOUGH = 0.85;

/**
 * The feed to give, with what is told of products whose name and row contradict each other. Where such a product would carry the can over a
 * most if its name is right, and the rest of the shelf makes a feed, it stays out until somebody has looked at the label.
 */
export async function givenBeyondDoubt(request: FeedRequest, wanted: GivenAsked): Promise<GivenResult> {
  const result = await givenFeed(request, wanted);
  if (result.status !== 'made') return result;
  const doubted = doubtedIn(result.given.plan, request);
  if (doubted.length === 0) return result;
  const ids = new Set(doubted.map(({ product }) => product));
  const rest = { ...request, shelf: request.shelf.filter(({ id }) => !ids.has(id)) };
  const staysOut = doubted.some(overByName);
  const { market: _, ...alone } = wanted;
  const without = await givenFeed(rest, staysOut ? alone : { ...alone, beside: false, offers: false, prices: false });
  if (staysOut && isGood(without)) return told(without, { doubted, used: false, without: null });
  const beside =
    without.status === 'made' && without.given.plan.status === 'kept'
      ? { share: without.given.sure.share, costPerLitre: without.costPerLitre }
      : null;
  return told(result, { doubted, used: true, without: beside });
}

const isGood = (result: GivenResult): result is GivenMade =>
  result.status === 'made' && result.given.plan.status === 'kept' && result.given.sure.share >= ENOUGH;

const told = (result: GivenMade, doubts: NonNullable<GivenMade['given']['doubts']>): GivenMade => ({
  ...result,
  given: { ...result.given, doubts },
});
