import { withCan } from '../../can/can-cautions.js';
import { type Caution, cautionsFor, inOneList } from '../../can/cautions.js';
import { isEmptyKit, USUAL_KIT } from '../../dose/usual-kit.js';
import type { FeedRequest } from '../../feed/request.js';
import { planOnBench } from '../on-bench.js';
import { USUAL_BATCH, USUALLY_SURE } from '../given.js';
import type { Hands } from '../handed.js';
import { costOf, fewestMixes, litresOf } from './fewest-mixes.js';
import type { FeedAlone, OneResult } from './one-types.js';
import { nitrogenOf } from './shared-request.js';

export type * from './one-types.js';

export interface OneAsked extends Omit<Hands, 'sure'> {
  sure?: number;
  factor?: number;
  /** Litres of a feed in a year, by its name; null where nobody says. */
  litresPerYear: (name: string) => number | null;
}

/**
 * One mix for the whole bench: each feed is that mix with water added, near its aims about as it would be by itself, its cans as sure. Where
 * one mix cannot serve all, the fewest that do.
 */
export async function oneMix(requests: readonly FeedRequest[], wanted: OneAsked): Promise<OneResult> {
  const assumed = {
    kit: isEmptyKit(wanted.kit),
    batch: requests.some(({ header }) => header.batchLitres === null),
  };
  const hands: Hands = {
    ...wanted,
    sure: wanted.sure ?? USUALLY_SURE,
    kit: assumed.kit ? { ...wanted.kit, ...USUAL_KIT } : wanted.kit,
  };
  const alone: FeedAlone[] = [];
  const without: string[] = [];
  for (const request of requests.map(sized)) {
    const { name } = request.header;
    const litresPerYear = wanted.litresPerYear(name);
    const asked = { ...hands, want: 'near' as const, factor: wanted.factor ?? 1, offers: false, litresPerYear };
    const onBench = await planOnBench(request, asked, assumed);
    if ('planned' in onBench && nitrogenOf(request) !== null)
      alone.push({ request, plan: onBench.planned, wayOut: onBench.wayOut, litresPerYear });
    else without.push(name);
  }
  const { mixes, apart, isFewest } =
    alone.length === 0 ? { mixes: [], apart: [], isFewest: true } : await fewestMixes(alone.map(counted(alone)), hands);
  const litres = litresOf(alone);
  return {
    status: mixes.length === 0 ? 'none' : mixes.length === 1 ? 'one' : 'several',
    currency: requests[0]?.header.currency ?? '',
    mixes,
    apart,
    isFewest,
    without,
    cost: {
      one: costOf(mixes, alone),
      separate: alone.reduce(
        (sum, { request, plan }) => sum + plan.plan.mix.costPerLitre * litres(request.header.name),
        0,
      ),
      over: alone.every(({ litresPerYear }) => litresPerYear !== null) ? 'year' : 'can of each',
    },
    separate: alone.map(({ request, plan: { plan, share } }) => ({
      feed: request.header.name,
      costPerLitre: plan.mix.costPerLitre,
      share,
      items: plan.items.length,
    })),
    assumed,
    cautions: inOneList(mixes.map(cautionsOf)),
  };
}

/** One mix is on one shelf: iron that one of the feeds does not hold by itself counts in none. */
function counted(feeds: readonly FeedAlone[]): (feed: FeedAlone) => FeedAlone {
  const lost = new Set(feeds.flatMap(({ plan }) => plan.request.shelf.flatMap((p) => (p.isIronCounted ? [] : [p.id]))));
  return (feed) => {
    const { request } = feed;
    if (lost.size === 0) return feed;
    return {
      ...feed,
      request: { ...request, shelf: request.shelf.map((p) => (lost.has(p.id) ? p.withIronNotCounted() : p)) },
    };
  };
}

const cautionsOf = ({ plan, cans }: OneResult['mixes'][number]): Caution[] =>
  inOneList(
    cans.map(({ sharing }) =>
      withCan(
        cautionsFor(
          plan.items.map(({ product }) => product),
          sharing.request.header,
        ),
        plan.mix,
      ),
    ),
  );

const sized = (request: FeedRequest): FeedRequest =>
  request.header.batchLitres === null
    ? { ...request, header: { ...request.header, batchLitres: USUAL_BATCH } }
    : request;
