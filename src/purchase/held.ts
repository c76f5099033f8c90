import { nearestOfAll, nearestWidth, type NearestWidth } from '../blend/near-width.js';
import { ownWidths } from '../blend/own-widths.js';
import { withoutCustom } from '../feed/grade.js';
import { type NearAsked, nearBands } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { poolOf } from './pool.js';
import { isOver } from './search.js';
import type { PurchaseOptions, PurchaseRequest } from './types.js';

/** A purchase with each feed held near its aims. */
export interface Held {
  /** The same purchase; the feeds carry the widths within which packs have to serve them. */
  request: PurchaseRequest;
  /** The widths of each feed, null where all that is there or for sale cannot mix it. */
  near: (NearAsked | null)[];
}

/** Packs have to serve a little less near than the nearest mix, so that doses of whole spoons fit too. */
export const ROOM = 1.08;

/** Limits that only convention stands behind make no purchase dearer: what a feed lacks of them is told, as in blend. */
export const graded = (request: FeedRequest, shelf: FeedRequest['shelf']): FeedRequest => ({
  ...request,
  programme: withoutCustom(request.programme),
  shelf,
});

/**
 * Each feed held as near its aims as was asked, or as near as everything on the shelf and for sale can bring it. Packs do not matter to that:
 * whoever buys enough of everything has no stock to mind.
 * @param factor times the usual widths; `least`: as near as can be
 * @returns null where the seconds are over
 */
export async function heldNear(
  request: PurchaseRequest,
  factor: number | 'least',
  options: PurchaseOptions,
): Promise<Held | null> {
  const shelf = poolOf(request).flatMap(({ product, onHand, offer }) =>
    onHand !== 0 || offer !== null ? [product] : [],
  );
  const near: Held['near'] = [];
  for (const { request: feed } of request.feeds) {
    if (isOver(options)) return null;
    const all = graded(feed, shelf);
    const nearest: NearestWidth | object = await (factor === 'least' ? nearestOfAll(all) : nearestWidth(all, factor));
    if (!('found' in nearest)) near.push(null);
    else near.push(factor === 'least' ? nearest.asked : await ownWidths(all, nearest, { factor }));
  }
  return heldAt(request, near);
}

/** The purchase with its feeds within these widths, each with a little room. */
export function heldAt(request: PurchaseRequest, near: Held['near']): Held {
  const feeds = request.feeds.map((planned, f) => {
    const { near: _, ...feed } = graded(planned.request, []);
    const asked = near[f]!;
    return { ...planned, request: asked === null ? feed : { ...feed, near: nearBands(feed.programme, loose(asked)) } };
  });
  return { request: { ...request, feeds }, near };
}

/** No nearer than a factor: widths that are farther stay as they are. */
export const noNearer = (near: Held['near'], factor: number): Held['near'] =>
  near.map((asked) => asked && { ...asked, factor: Math.max(asked.factor, factor) });

const loose = (asked: NearAsked): NearAsked => ({
  ...asked,
  factor: asked.factor * ROOM,
  own: Object.fromEntries(Object.entries(asked.own ?? {}).map(([nutrient, own]) => [nutrient, own * ROOM])),
});

/** Times the usual widths that the farthest element of any feed may be; null without widths. */
export function factorIn(near: Held['near']): number | null {
  const all = near.flatMap((asked) => (asked ? [asked.factor, ...Object.values(asked.own ?? {})] : []));
  return all.length === 0 ? null : Math.max(...all);
}
