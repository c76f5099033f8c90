import { type NearAsked, NITROGEN_WITHIN } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest, leastWidth } from '../formulation/index.js';
import { missingFrom, type NearestWidth, nearestWidth, nearRequest } from './near-width.js';

/** As near to each other as the ends of the bisection. */
const CLOSE = 1.005;
/** So that the program at the least factor is no matter of the last places. */
const ROOM = 1.0005;

/**
 * What `nearestWidth` finds, within the same half of a percent, in a few programs: for figures that follow a thumb. The least factor is reckoned
 * with the factor as a column; the mix there is solved like any other. Where the EC cap has a part in it, a program a little nearer has to
 * have no mix; where anything is otherwise, the bisection decides. It does not tell what stops a nearer mix. Each search begins at the factor of
 * the one before, which a slider has hardly moved.
 */
export const quickWidths = (): typeof nearestWidth => {
  let last: number | undefined;
  return async (request, from, shared = {}, nitrogen = NITROGEN_WITHIN) => {
    const without = missingFrom(request);
    const at = (factor: number): NearAsked => ({ factor, nitrogenWithin: nitrogen, without, ...shared });
    const least = await leastWidth(request, at(from), last);
    if (least === null) return nearestWidth(request, from, shared, nitrogen);
    last = least.factor;
    const asked = at(least.factor > from ? least.factor * ROOM : from);
    const found = await solved(request, asked);
    if (found.answer !== 'found' || (least.pressed && asked.factor > from && (await isNearer(request, asked, from))))
      return nearestWidth(request, from, shared, nitrogen);
    const told: NearestWidth = { asked, found, stoppedBy: [], nearer: null, nearerAt: null };
    return told;
  };
};

const solved = (request: FeedRequest, asked: NearAsked): ReturnType<typeof cheapest> =>
  cheapest(nearRequest(request, asked));

/** Whether a mix is there that lies clearly nearer. */
const isNearer = async (request: FeedRequest, asked: NearAsked, from: number): Promise<boolean> =>
  (await solved(request, { ...asked, factor: Math.max(from, asked.factor / CLOSE) })).answer === 'found';
