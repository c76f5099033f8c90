import { Groups } from '../../blend/one/groups.js';
import { type NotShared, MOST_STRETCH, refused } from '../../blend/one/shared-plan.js';
import { cheapestShared, type Sharing, sharedRequest, sharings, stretched } from '../../blend/one/shared-request.js';
import type { EcLinearisation } from '../../feed/ec-linearisation.js';
import type { NearAsked } from '../../feed/near.js';
import { litres } from '../../units/index.js';
import { graded, ROOM } from '../held.js';
import { poolOf } from '../pool.js';
import { type Joint, jointProgram } from '../program.js';
import type { PlannedFeed, PurchaseRequest } from '../types.js';

/** Feeds that one mix of what is on the shelf and for sale serves; packs do not matter to that. */
export interface MixForSale {
  shares: true;
  group: Sharing[];
  /** The mix as something to be bought for: so many litres of it, and the water of all its feeds. */
  planned: PlannedFeed;
  linearisation: EcLinearisation | null;
}

/**
 * Which feeds could share a mix if everything were bought, each near its aims about as it could be by itself.
 * @param near how near everything for sale brings each feed by itself
 */
export function mixesForSale(request: PurchaseRequest, near: readonly NearAsked[]): Groups<MixForSale> {
  // nothing is to be had of what stands empty on the shelf and is not for sale
  const shelf = poolOf(request).map(({ product, onHand, offer }) =>
    onHand === 0 && offer === null ? product.with({ onHand: 0 }) : product,
  );
  const feeds = request.feeds.map((planned) => ({ ...planned, request: graded(planned.request, shelf) }));
  return new Groups(async (members): Promise<MixForSale | NotShared> => {
    const group = sharings(members.map((i) => ({ request: feeds[i]!.request, own: near[i]! })));
    const { answer, request: mix } = await cheapestShared(sharedRequest(group, stretchOf(group)));
    if (answer.answer !== 'found') return refused(group, mix, answer);
    const weekly = group.map((one) => feeds.find((feed) => feed.request === one.request)!.weeklyLitres);
    const planned = {
      request: mix,
      weeklyLitres: litres(group.reduce((sum, { parts }, i) => sum + parts.share * weekly[i]!, 0)),
      weeklyWater: litres(weekly.reduce((sum, all) => sum + all, 0)),
    };
    return { shares: true, group, planned, linearisation: answer.linearisation };
  });
}

/** The packs for so many mixes as one program. */
export const jointOf = (request: PurchaseRequest, mixes: readonly MixForSale[]): Joint =>
  jointProgram(
    { ...request, feeds: mixes.map(({ planned }) => planned) },
    mixes.map(({ linearisation }) => linearisation),
  );

/** A feed with a mix of its own is held as in a purchase for it alone. */
const stretchOf = (group: readonly Sharing[]): number => (group.length === 1 ? ROOM : MOST_STRETCH);

/** The widths that the feeds of a mix are held within. */
export const widthsOf = ({ group }: MixForSale): NearAsked[] => group.map((one) => stretched(one, stretchOf(group)));
