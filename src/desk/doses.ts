import { blend } from '../blend/blend.js';
import type { GivenResult, Sure } from '../blend/given.js';
import { givenBeyondDoubt } from '../blend/beyond-doubt.js';
import { usualPen } from '../dose/by-pen.js';
import { type DosePlan, planDoses } from '../dose/plan.js';
import type { PenInHand } from '../dose/by-pen-types.js';
import { isEmptyKit, USUAL_KIT } from '../dose/usual-kit.js';
import { amountsOfMix } from '../dose/wanted.js';
import { A_REQUEST, type FeedRequest } from '../feed/request.js';
import type { BlendResult } from '../feed/results.js';
import { closeLabels } from './close-labels.js';
import type { FeedWishes } from './feed-wishes.js';
import type { OpenBench } from './opened.js';
import type { MilliSiemensPerCm } from '../units/index.js';
import { productsKnown } from './recipe-products.js';
import { refuseUnlike } from '../wrong-type.js';

/** The doses of a feed, with the feed that they measure out. */
export interface DosesOfFeed {
  result: GivenResult | BlendResult;
  /** Null where there is neither a feed nor a nearest one. */
  plan: DosePlan | null;
  /** How sure the doses are; null for the bare feed, which is not made for hands, and where there is none. */
  sure: Sure | null;
}

/** What is worked out besides the doses. */
export interface DosesAsked {
  /** Where the kit cannot measure it: what would make it possible. */
  offers: boolean;
  /** The feeds beside it, and what would make it surer. */
  beside?: boolean;
  prices?: boolean;
  /** What the pen shows in the water alone, mS/cm; steps by the pen follow it. */
  waterMSPerCm?: MilliSiemensPerCm | undefined;
  /** Where there is no feed: whether to try what would make one possible. */
  changes?: boolean;
  /** Waited for between plans; rejects where nobody wants the doses any more. */
  pause?: (() => Promise<void>) | undefined;
}

const OPENED = { kit: { spoons: 'list' }, catalog: { solubility: 'list' }, feeds: 'list' } as const;

/** Weeks of a year. */
export const WEEKS = 52;

/** The feed and its doses, the same for `blend`, `sheet`, `meter` and `concentrate`. Where there is no feed, the nearest one is measured out. */
export async function dosesOfFeed(
  request: FeedRequest,
  open: Pick<OpenBench, 'kit' | 'catalog' | 'feeds' | 'pen' | 'bench'>,
  wishes: FeedWishes,
  asked: DosesAsked,
): Promise<DosesOfFeed> {
  refuseUnlike(
    { request, open, wishes, asked },
    { request: A_REQUEST, open: OPENED, wishes: 'object', asked: 'object' },
  );
  const { bare, ...wanted } = wishes;
  const { offers, beside = false, prices = false, changes = false, waterMSPerCm, pause } = asked;
  const { kit, catalog } = open;
  const known = productsKnown(catalog);
  const { solubility } = catalog;
  if (bare)
    return bareDoses(request, isEmptyKit(kit) ? { ...kit, ...USUAL_KIT } : kit, { known, solubility, offers }, prices);
  const weekly = open.feeds.find(({ name }) => name === request.header.name)?.weeklyLitres;
  const litresPerYear = weekly === undefined ? null : weekly * WEEKS;
  const pen = penInHand(open, wanted.by, waterMSPerCm);
  const { salts, products } = catalog;
  const market = changes ? { market: { salts, products, close: closeLabels } } : {};
  const result = await givenBeyondDoubt(request, {
    ...wanted,
    ...pen,
    ...market,
    ...{ kit, known, solubility, offers, beside, prices, litresPerYear, pause },
  });
  return { result, plan: result.given.plan, sure: result.status === 'made' ? result.given.sure : null };
}

/** The pen that may steer doses: that of the bench; where it is asked for and none is named, one that shows EC. */
export function penInHand(
  { pen, bench }: Pick<OpenBench, 'pen' | 'bench'>,
  by: FeedWishes['by'],
  waterMSPerCm?: MilliSiemensPerCm,
): { pen?: PenInHand } {
  if (by === 'measure' || (by === undefined && !bench?.namesPen)) return {};
  const steering = usualPen(pen === null || pen === 'EC' ? null : pen);
  return { pen: { pen: steering, ...(waterMSPerCm === undefined ? {} : { waterMSPerCm }) } };
}

/** The cheapest mix inside the limits, measured out as near as the kit can where a batch is named. */
async function bareDoses(
  request: FeedRequest,
  kit: OpenBench['kit'],
  options: Parameters<typeof planDoses>[3],
  prices: boolean,
): Promise<DosesOfFeed> {
  const result = await blend({ ...request, goal: 'cheapest' }, prices ? { prices } : {});
  const mix = result.status === 'made' ? result : result.nearest;
  const plan =
    mix === null || request.header.batchLitres === null
      ? null
      : await planDoses(request, amountsOfMix(mix, request), kit, options);
  return { result, plan, sure: null };
}
