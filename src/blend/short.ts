import type { Sureness } from '../chance/sure.js';
import type { FeedRequest } from '../feed/request.js';
import { grams, scaleBy } from '../units/index.js';
import { type FeedAsked, type FeedPlan, planFeed } from './feed-plan.js';
import type { Sure, SureRemedy } from './given-types.js';

/** More of the share is worth naming. */
const HELPS = 0.02;
const FINE = grams(0.01);

/**
 * Why too few cans keep the limits, and what would help: each remedy planned again, with nitrogen as near its aim as it is now; the best first,
 * none that does not help.
 */
export async function shortOf(
  { share, near }: FeedPlan,
  { sources }: Sureness,
  request: FeedRequest,
  asked: FeedAsked,
): Promise<NonNullable<Sure['short']>> {
  const nitrogen = [near.asked.nitrogenWithin];
  const reached = async (other: FeedRequest, kit: FeedAsked['kit']): Promise<number> => {
    const found = await planFeed(other, { ...asked, kit, offers: false, nitrogen });
    return 'plan' in found ? found.share : 0;
  };
  const litres = scaleBy(request.header.batchLitres!, 2);
  const double = { ...request, header: { ...request.header, batchLitres: litres } };
  const { kit } = asked;
  const { scaleErrorGrams: _, ...own } = kit;
  const tried: SureRemedy[] = [{ kind: 'batch', litres, share: await reached(double, kit) }];
  if (kit.scaleStepGrams === undefined || kit.scaleStepGrams > FINE)
    tried.push({ kind: 'scale', stepGrams: FINE, share: await reached(request, { ...own, scaleStepGrams: FINE }) });
  const [first] = sources;
  return {
    blame: first && first.shareWithout > share + HELPS ? first : null,
    remedies: tried.filter((remedy) => remedy.share > share + HELPS).sort((a, b) => b.share - a.share),
  };
}
