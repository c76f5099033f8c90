import type { Amounts } from '../../can/mix-amounts.js';
import { withBatch } from '../../dose/offered.js';
import { type NearAsked, nearBands } from '../../feed/near.js';
import { type Diluted, ecCap, type FeedRequest, withoutEcCap } from '../../feed/request.js';
import { waterContent } from '../../feed/terms.js';
import { cheapest, type FeedAnswer, fullEc, linearisationOfMix } from '../../formulation/index.js';
import type { Litres } from '../../units/index.js';
import { type Parts, partsFor } from './parts.js';

/** A feed that is to share a mix, with what it comes to by itself. */
export interface Sharing {
  request: FeedRequest;
  /** The widths of the feed when it has a mix of its own. */
  own: NearAsked;
  parts: Parts;
  /** Of the strongest: how much of the mix is made at a time, where that is not as much as its can takes. */
  mixed?: Litres;
}

/** Total nitrogen that a feed aims at; null where its programme does not say. */
export const nitrogenOf = ({ programme }: Pick<FeedRequest, 'programme'>): number | null => {
  const aim = programme.bands.N?.aim;
  return aim !== undefined && aim > 0 ? aim : null;
};

/**
 * Feeds as parts of the mix that is the strongest of them, the strongest first: nitrogen fixes how far each is diluted. Nitrogen of the
 * water, which dilutes them, is taken from its first source.
 */
export function sharings(feeds: readonly { request: FeedRequest; own: NearAsked }[]): Sharing[] {
  const inOrder = [...feeds].sort((a, b) => (nitrogenOf(b.request) ?? 0) - (nitrogenOf(a.request) ?? 0));
  const [{ request: strongest }] = inOrder as [(typeof feeds)[number]];
  const water = waterContent(strongest.waters[0]!, 'N');
  const over = (request: FeedRequest): number => Math.max(1e-9, (nitrogenOf(request) ?? 0) - water);
  return inOrder.map((feed) => ({ ...feed, parts: partsFor(over(feed.request) / over(strongest)) }));
}

/** How far a feed in a shared mix may be from its aims, as a multiple of how far it is by itself. */
export function stretched({ own, parts }: Pick<Sharing, 'own' | 'parts'>, stretch: number): NearAsked {
  return {
    ...own,
    factor: own.factor * stretch,
    own: Object.fromEntries(Object.entries(own.own ?? {}).map(([nutrient, factor]) => [nutrient, factor * stretch])),
    nitrogenWithin: own.nitrogenWithin + rounding(parts),
  };
}

/** Whole parts may cost so much of the nearness of nitrogen; what is farther off has no such parts and shares no mix. */
const MOST_OFF = 0.1;
const rounding = ({ off }: Parts): number => Math.min(MOST_OFF, Math.abs(off));

/** More than the plan's widths, for what hands measure in steps. */
export interface Looser {
  nitrogenWithin: number;
  widths: number;
}

/**
 * One request for all of them: the mix is the strongest feed, the others are that mix diluted, each held as near to its aims as `stretch`
 * allows.
 * @param limits the feeds themselves, in the order of `group`, where limits are moved in
 */
export function sharedRequest(
  group: readonly Sharing[],
  stretch: number,
  limits: readonly FeedRequest[] = group.map(({ request }) => request),
  looser: Looser | null = null,
): FeedRequest {
  const held = group.map((feed, i): FeedRequest => {
    const asked = stretched(feed, stretch * (looser?.widths ?? 1));
    const nitrogenWithin = Math.max(asked.nitrogenWithin, (looser?.nitrogenWithin ?? 0) + rounding(feed.parts));
    return {
      ...limits[i]!,
      goal: 'cheapest',
      near: nearBands(feed.request.programme, { ...asked, nitrogenWithin }),
    };
  });
  const [strongest, ...others] = held as [FeedRequest, ...FeedRequest[]];
  const diluted = others.map((request, i): Diluted => ({ request, share: group[i + 1]!.parts.share }));
  const { mixed } = group[0]!;
  return { ...(mixed === undefined ? strongest : withBatch(strongest, mixed)), diluted };
}

/** A mix with water added. */
export const dilutedAmounts = ({ products, waters }: Amounts, share: number): Amounts => ({
  products: products.map((x) => x * share),
  waters,
});

/** So often the lines that stand for the EC of diluted feeds are laid anew. */
const ROUNDS = 4;
const KEPT = 1e-6;

/** The cheapest shared mix, with the request whose EC lines touch the model where it matters. */
export async function cheapestShared(request: FeedRequest): Promise<{ answer: FeedAnswer; request: FeedRequest }> {
  let at = request;
  let answer = await cheapest(at);
  for (let round = 1; round < ROUNDS; round += 1) {
    if (answer.answer === 'found' && keepsEc(answer.amounts, at)) break;
    const mix = answer.answer === 'found' ? answer.amounts : await mixWithoutCaps(at);
    if (mix === null) break;
    at = touching(at, mix);
    answer = await cheapest(at);
  }
  if (answer.answer === 'found' && !keepsEc(answer.amounts, at))
    answer = { ...answer, answer: 'open', over: answer.amounts };
  return { answer, request: at };
}

/** Every diluted feed with its EC line at the mix. */
const touching = (request: FeedRequest, mix: Amounts): FeedRequest => ({
  ...request,
  diluted: (request.diluted ?? []).map((one) => ({
    ...one,
    linearisation: linearisationOfMix(dilutedAmounts(mix, one.share), one.request),
  })),
});

/** The mix that only the EC caps of the diluted feeds may keep from being; null where there is none, or no such cap. */
async function mixWithoutCaps(request: FeedRequest): Promise<Amounts | null> {
  const diluted = request.diluted ?? [];
  if (diluted.every((one) => ecCap(one.request) === null)) return null;
  const free = diluted.map((one) => ({ ...one, request: withoutEcCap(one.request) }));
  const answer = await cheapest({ ...request, diluted: free });
  return answer.answer === 'found' ? answer.amounts : null;
}

/** Whether every diluted feed keeps its EC cap by the full model. */
export const keepsEc = (mix: Amounts, { diluted = [] }: Pick<FeedRequest, 'diluted'>): boolean =>
  diluted.every(({ request, share }) => {
    const cap = ecCap(request);
    return cap === null || fullEc(dilutedAmounts(mix, share), request) <= cap * (1 + KEPT);
  });
