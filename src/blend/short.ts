import type { Sureness } from '../chance/sure.js';
import type { FeedRequest } from '../feed/request.js';
import { grams, scaleBy } from '../units/index.js';
import { type FeedAsked, type FeedPlan, planFeed } from './feed-plan.js';
import type { Sure, SureRemedy, ToWeigh } from './given-types.js';

/** More of the share is worth naming. */
const HELPS = 0.02;
const FINE = grams(0.01);
/** Times the batch, where the kit cannot make the feed at all. */
const LARGER = [2, 3, 4];
/** Between these powders lie, g/mL (from memory): what spoons of an unknown one could weigh. */
const DENSITIES = [0.7, 1.2];
/** Powders that are asked about, one at a time. */
const MOST_WEIGHED = 3;

/** The powders of these doses that level spoons could measure, if anybody knew what they weigh. */
const toWeigh = ({ notes }: FeedPlan['plan']): ToWeigh[] =>
  notes
    .flatMap((note) =>
      note.kind === 'bulk density missing' || note.kind === 'bulk density unknown'
        ? [{ product: note.product, spoon: note.spoon }]
        : [],
    )
    .slice(0, MOST_WEIGHED);

/** Of batches the one that does most for cans. */
const isFirstBatch = (one: SureRemedy, i: number, all: readonly SureRemedy[]): boolean =>
  one.kind !== 'batch' || all.findIndex(({ kind }) => kind === 'batch') === i;

/**
 * Why too few cans keep the limits, and what would help: each remedy planned again, with nitrogen as near its aim as it is now; the best first,
 * none that does not help.
 */
export async function shortOf(
  { share, wanted, near, plan }: FeedPlan,
  { sources }: Sureness,
  request: FeedRequest,
  asked: FeedAsked,
): Promise<NonNullable<Sure['short']>> {
  const nitrogen = [near.asked.nitrogenWithin];
  const reached = async (other: FeedRequest, kit: FeedAsked['kit']): Promise<number> => {
    const found = await planFeed(other, { ...asked, kit, offers: false, nitrogen });
    return 'plan' in found ? found.share : 0;
  };
  const { kit } = asked;
  const { scaleErrorGrams: _, ...own } = kit;
  const tried: SureRemedy[] = [];
  const isRefused = plan.status !== 'kept';
  for (const times of isRefused ? LARGER : [2]) {
    const litres = scaleBy(request.header.batchLitres!, times);
    const batch = { ...request, header: { ...request.header, batchLitres: litres } };
    tried.push({ kind: 'batch', litres, share: await reached(batch, kit) });
    if (tried.at(-1)!.share >= wanted) break;
  }
  for (const { product, spoon } of isRefused ? toWeigh(plan) : []) {
    let least = 1;
    for (const bulkDensity of DENSITIES) {
      const shelf = request.shelf.map((one) => (one.id === product ? one.with({ bulkDensity }) : one));
      if (least > share + HELPS) least = Math.min(least, await reached({ ...request, shelf }, kit));
    }
    tried.push({ kind: 'weigh', product, spoon, share: least });
  }
  if (kit.scaleStepGrams === undefined || kit.scaleStepGrams > FINE)
    tried.push({ kind: 'scale', stepGrams: FINE, share: await reached(request, { ...own, scaleStepGrams: FINE }) });
  const [first] = sources;
  return {
    blame: first && first.shareWithout > share + HELPS ? first : null,
    remedies: tried
      .filter((remedy) => remedy.share > share + HELPS)
      .sort((a, b) => b.share - a.share)
      .filter(isFirstBatch),
  };
}
