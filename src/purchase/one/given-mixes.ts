import type { OneResult, SharedPlan } from '../../blend/one/one-types.js';
import { USUAL_BATCH } from '../../blend/given.js';
import type { FeedRequest } from '../../feed/request.js';
import type { Joint } from '../program.js';
import type { Found } from '../search.js';
import { availableWith, settleThrift } from '../settle.js';
import type { PurchaseRequest } from '../types.js';

/** The mixes of a shelf, as `blend --one` gives them: the requests name the shelf. */
export type MixesOf = (requests: readonly FeedRequest[]) => Promise<OneResult>;

/** Mixes of what is on hand and bought, with what they use of each candidate over the horizon, g or mL. */
export interface MixesGiven {
  one: OneResult;
  used: number[];
}

/**
 * The mixes from what is on hand and bought. Where they would use a stock up before the weeks are over, each litre of a mix may take its
 * share of it: what it takes in the thriftiest mixes, and its part by litres of what those leave.
 */
export async function mixesFrom(
  { joint, found }: { joint: Joint; found: Found },
  request: PurchaseRequest,
  mixesOf: MixesOf,
): Promise<MixesGiven> {
  const available = availableWith(joint, found.counts);
  const made = async (most: (i: number) => number | undefined): Promise<MixesGiven> => {
    const one = await mixesOf(
      request.feeds.map(({ request: feed }) => {
        const batch = feed.header.batchLitres ?? USUAL_BATCH;
        const shelf = joint.pool.flatMap(({ product }, i) => {
          const perLitre = most(i);
          const onHand = perLitre === undefined ? undefined : perLitre * batch;
          return available[i]! > 0 ? [product.with({ onHand })] : [];
        });
        return { ...feed, shelf };
      }),
    );
    return { one, used: joint.pool.map(({ product }) => usedBy(one, request, product.id)) };
  };
  const free = await made(() => undefined);
  if (free.used.every((used, i) => used <= available[i]! * (1 + 1e-6))) return free;
  const thrift = await settleThrift(joint, available);
  const all = joint.feeds.reduce((sum, { litres }) => sum + litres, 0);
  return made((i) => {
    const stock = available[i]!;
    if (!Number.isFinite(stock)) return undefined;
    if (thrift === null) return stock / all;
    const amounts = thrift.amounts.map(({ products }) => products[i]!);
    const used = amounts.reduce((sum, perLitre, f) => sum + perLitre * joint.feeds[f]!.litres, 0);
    return Math.max(...amounts) + Math.max(0, stock - used) / all;
  });
}

/** Litres of a mix over the horizon. */
export function litresOfMix({ cans }: Pick<SharedPlan, 'cans'>, { feeds, weeks }: PurchaseRequest): number {
  return cans.reduce((sum, { sharing: { request, parts } }) => {
    const weekly = feeds.find((feed) => feed.request.header.name === request.header.name)?.weeklyLitres ?? 0;
    return sum + weeks * weekly * parts.share;
  }, 0);
}

function usedBy({ mixes }: OneResult, request: PurchaseRequest, id: string): number {
  return mixes.reduce((sum, mix) => {
    const item = mix.plan.mix.items.find((one) => one.id === id);
    return sum + litresOfMix(mix, request) * (item?.gramsPerLitre ?? item?.millilitresPerLitre ?? 0);
  }, 0);
}
