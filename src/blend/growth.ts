import type { NearAsked } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest } from '../formulation/index.js';
import { type NearestWidth, nearRequest } from './near-width.js';
import { ownWidths } from './own-widths.js';
import { allowance } from './thrifty.js';

/**
 * For sure cans, for amounts that the kit can measure, and where nearness costs many times as much, widths may grow by so much; who feeds by
 * the spoon would not notice.
 */
const GROWTH = { times: 0.07, plus: 0.045 };
/** With the steps of hands and tools on top. */
const WITH_ROUNDING = { times: 0.15, plus: 0.1 };
const STEPS = 4;
export const MOST_GROWN = 1;

const by = (factor: number, { times, plus }: typeof GROWTH): number => factor + times * factor + plus;

/** The factor that doses, in steps of the kit, may reach. */
export const mostRounded = ({ factor, own = {} }: NearAsked): number =>
  by(Math.max(factor, ...Object.values(own)), WITH_ROUNDING);

/** Every factor of what was asked, changed alike. */
export const withFactors = (near: NearAsked, change: (factor: number) => number): NearAsked => ({
  ...near,
  factor: change(near.factor),
  own: Object.fromEntries(Object.entries(near.own ?? {}).map(([nutrient, factor]) => [nutrient, change(factor)])),
});

/** The widths of a plan, each grown to a share of what it may grow. */
export const grown = (near: NearAsked, share: number): NearAsked =>
  withFactors(near, (factor) => factor + share * (by(factor, GROWTH) - factor));

/** The least share of that growth at which the limits can be kept, at no more than `mostCost` a litre. */
async function leastGrowth(request: FeedRequest, near: NearAsked, mostCost: number): Promise<number> {
  let [low, high] = [0, MOST_GROWN];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (low + high) / 2;
    const answer = await cheapest(nearRequest(request, grown(near, middle)));
    if (answer.answer === 'found' && answer.optimal.objective <= mostCost) high = middle;
    else low = middle;
  }
  return high;
}

/** Nearness within the usual widths that costs so many times what a little less of it does is not worth it. */
const STEEP = 1.25;

/**
 * The widths of a plan inside limits that may have been moved in. They grow as little as those ask; but the last percent of nearness may cost
 * many times what the rest does: where they had to grow at all, and at the usual widths where it is steep, they grow on until the mix costs
 * hardly more than at the most they may, and only elements that are to blame keep them. Null where they would have to grow too far.
 */
export async function worthwhile(
  request: FeedRequest,
  nearest: NearestWidth,
  { factor: wanted }: { factor: number },
): Promise<NearAsked | null> {
  const { asked } = nearest;
  const first = await cheapest(nearRequest(request, asked));
  const hadToGrow = asked.factor > wanted * 1.001;
  // what somebody asked for is kept, whatever it costs
  if (first.answer === 'found' && !hadToGrow && wanted !== 1) return asked;
  const widest = await cheapest(nearRequest(request, grown(asked, MOST_GROWN)));
  if (widest.answer !== 'found') return null;
  const mostCost = allowance(widest.optimal.objective, request);
  if (
    first.answer === 'found' &&
    !hadToGrow &&
    first.optimal.objective <= Math.max(mostCost, STEEP * widest.optimal.objective)
  )
    return asked;
  const share =
    first.answer === 'found' && first.optimal.objective <= mostCost ? 0 : await leastGrowth(request, asked, mostCost);
  const own = grown(asked, share);
  if (!hadToGrow) return own;
  const found = share === 0 ? first : await cheapest(nearRequest(request, own));
  return found.answer === 'found'
    ? ownWidths(request, { ...nearest, asked: own, found }, { factor: wanted }, mostCost)
    : own;
}
