import { withCan } from '../can/can-cautions.js';
import { keepingOf } from '../can/keeping.js';
import { partsOf, watersOf } from '../can/part.js';
import { cautionsFor, inOneList, ureaCaution } from '../can/cautions.js';
import { sureness } from '../chance/sure.js';
import { isEmptyKit, USUAL_KIT } from '../dose/usual-kit.js';
import { factorOf, aimsOf, widthOf } from '../feed/near.js';
import { withoutCustom } from '../feed/grade.js';
import type { FeedRequest } from '../feed/request.js';
import type { Mix } from '../feed/results.js';
import type { BlendMade, BlendOpen } from '../feed/results.js';
import { cheapest } from '../formulation/index.js';
import { litres } from '../units/index.js';
import { bareBeside, besideOf, closestBeside } from './beside.js';
import { blend, notesOf } from './blend.js';
import { type DosedBy, isMeasured } from './best-hands.js';
import type { FeedAsked, FeedPlan } from './feed-plan.js';
import type { Beside, Given, GivenNone, GivenResult, Near, Sure } from './given-types.js';
import { nearRequest } from './near-width.js';
import { pricesOf } from './prices.js';
import { changesFor } from './changes.js';
import { graded, nearestDoses } from './nearest-doses.js';
import { shortOf } from './short.js';
import { planOnBench } from './on-bench.js';
import { otherWays } from './way-out.js';
import type { Market } from './with-more.js';

export type * from './given-types.js';

/** What is asked of a feed that is given. */
export interface GivenAsked extends Omit<FeedAsked, 'want' | 'factor' | 'sure'> {
  want?: FeedAsked['want'];
  factor?: number;
  sure?: number;
  /** How doses are had; unasked by measure, or by `pen` where that is named and nothing else is fine enough. */
  by?: DosedBy;
  /** Litres of it in a year, where somebody said. */
  litresPerYear?: number | null;
  /** Whether to work out what it costs to insist. */
  prices?: boolean;
  /** What could be bought where there is no feed; absent: no change is tried. */
  market?: Market;
  /** Whether to work out the feeds beside it, and what would make it surer. */
  beside?: boolean;
}

/** Nine of ten cans. */
export const USUALLY_SURE = 0.9;
/** A can as many growers have it; assumed, and said, where nobody names a batch. */
export const USUAL_BATCH = litres(4);

/**
 * The feed to give: near its aims, sure in these hands, then thrifty, as doses of this kit; where no kit is named, of the usual one. Where
 * limits that hurt or that plants need cannot be kept: why, and the nearest there is as doses.
 */
export async function givenFeed(request: FeedRequest, wanted: GivenAsked): Promise<GivenResult> {
  const { assumed, asked, sized } = readied(request, wanted);
  const onBench = await planOnBench(sized, { ...asked, by: wanted.by, litresPerYear: wanted.litresPerYear }, assumed);
  if (!('planned' in onBench)) return noneGiven(sized, onBench.hands, assumed, wanted.market);
  const { planned, hands, wayOut } = onBench;
  const { plan, proof } = planned;
  const { mix } = plan;
  const used = new Set(mix.items.map(({ id }) => id));
  const mixed = sized.shelf.filter(({ id }) => used.has(id));
  const cautions = inOneList([cautionsFor(mixed, sized.header), ureaCaution(mixed, mix.nitrogenShares?.urea ?? 0)]);
  const goal = asked.want === 'closest' ? ('closest' as const) : ('cheapest' as const);
  const told = { goal, feed: { ...sized.header, batchLitres: plan.batchLitres } };
  return {
    status: 'made',
    ...told,
    ...mix,
    unknowns: [],
    notes: notesOf(sized),
    cautions: withCan(cautions, mix),
    proof,
    ...(wanted.prices ? await pricedAt(planned, planned.request) : {}),
    given: { wayOut, ...(await givenOf(await withOffers(planned, hands), planned.request, hands, wanted, assumed)) },
  };
}

/** The mix of the feed to give alone, as the kit measures it; null where there is no feed, and nothing is worked out about why. */
export async function givenMix(request: FeedRequest, wanted: GivenAsked): Promise<Mix | null> {
  const { assumed, asked, sized } = readied(request, wanted);
  const onBench = await planOnBench(sized, { ...asked, by: wanted.by, offers: false }, assumed);
  return 'planned' in onBench ? onBench.planned.plan.mix : null;
}

/** What would make doses measurable that are not. */
async function withOffers(planned: FeedPlan, asked: FeedAsked): Promise<FeedPlan> {
  if (!asked.offers || isMeasured(planned)) return planned;
  return { ...planned, plan: { ...planned.plan, offers: await otherWays(planned, asked, null) } };
}

/** What is asked, with a kit and a can where nobody names one. */
function readied(
  request: FeedRequest,
  wanted: GivenAsked,
): { assumed: Given['assumed']; asked: FeedAsked; sized: FeedRequest } {
  const assumed = { kit: isEmptyKit(wanted.kit), batch: request.header.batchLitres === null };
  const asked: FeedAsked = {
    ...wanted,
    want: wanted.want ?? 'near',
    factor: wanted.factor ?? 1,
    sure: wanted.sure ?? USUALLY_SURE,
    kit: assumed.kit ? { ...wanted.kit, ...USUAL_KIT } : wanted.kit,
  };
  return { assumed, asked, sized: sizedFor(request) };
}

/** The request with a can where nobody names one. */
export const sizedFor = (request: FeedRequest): FeedRequest =>
  request.header.batchLitres === null
    ? { ...request, header: { ...request.header, batchLitres: USUAL_BATCH } }
    : request;

async function givenOf(
  planned: FeedPlan,
  request: FeedRequest,
  asked: FeedAsked,
  { beside, litresPerYear = null }: GivenAsked,
  assumed: Given['assumed'],
): Promise<Omit<Given, 'wayOut'>> {
  const { plan, custom } = planned;
  const own = besideOf(plan.mix, request, planned.share);
  return {
    plan,
    keeps: keepingOf(partsOf(plan.amounts, plan.request.shelf), watersOf(plan.amounts, plan.request.waters)),
    near: nearOf(planned.near, plan.mix, request),
    sure: await sureOf(planned, request, asked, beside === true),
    custom,
    idealCostPerLitre: planned.ideal.optimal.objective,
    beside: {
      bare: beside ? await bareBeside(request, asked) : null,
      closest: beside ? (asked.want === 'closest' ? own : nearer(own, await closestBeside(request, asked))) : null,
      own,
    },
    litresPerYear,
    assumed,
  };
}

/** Coarse tools may leave the closest mix farther off than this feed, which is then the closest that these hands make. */
const nearer = (own: Beside, closest: Beside | null): Beside | null =>
  closest !== null && (closest.largestMiss?.share ?? 0) > (own.largestMiss?.share ?? 0) ? own : closest;

async function sureOf(planned: FeedPlan, request: FeedRequest, asked: FeedAsked, more: boolean): Promise<Sure> {
  const { plan, share, wanted } = planned;
  const told = sureness(plan, plan.request, { known: asked.known, sources: more });
  return {
    share,
    wanted,
    sureness: told,
    short: share < wanted && more ? await shortOf(planned, told, request, asked) : null,
  };
}

/** How near a mix lies that was planned within these widths. */
export function nearOf(
  { asked, stoppedBy }: FeedPlan['near'],
  { elements }: Pick<Mix, 'elements'>,
  { programme, atMost }: FeedRequest,
): Near {
  const largest = Math.max(asked.factor, ...Object.values(asked.own ?? {}));
  const lines = aimsOf(programme)
    .filter(([element]) => element !== 'N')
    .map(([element, aim]) => {
      const mgPerLitre = elements.find((line) => line.element === element)?.mgPerLitre ?? 0;
      return { element, mgPerLitre, aim, factor: factorOf(element, mgPerLitre, aim) };
    });
  return {
    asked,
    main: widthOf('P', largest),
    trace: widthOf('Fe', largest),
    farthest: lines
      .filter(({ factor }) => factor > FAR)
      .sort((a, b) => b.factor - a.factor)
      .map(({ element, mgPerLitre, aim }) => ({ element, mgPerLitre, aim })),
    stoppedBy,
    atMost: atMost ?? null,
  };
}

/** Beyond the usual widths by more than rounding to a tool leaves. */
const FAR = 1.05;

/** Shadow prices of the plan, its limits as they are. */
async function pricedAt({ near }: FeedPlan, request: FeedRequest) {
  const held = nearRequest(request, near.asked);
  const answer = await cheapest(held);
  return answer.answer === 'found' ? { prices: await pricesOf(held, answer.linearisation, answer.optimal) } : {};
}

async function noneGiven(
  request: FeedRequest,
  asked: FeedAsked,
  assumed: Given['assumed'],
  market?: Market,
): Promise<GivenNone> {
  const within = { ...request, programme: withoutCustom(request.programme), goal: 'cheapest' as const };
  const blended = await blend(within, { prices: false });
  // the conventions alone stood in the way of nothing; a search that was not finished before may have been this time
  const result = blended.status === 'made' ? openAt(blended) : blended;
  const nearest = await nearestDoses(request, result.nearest, asked);
  const changes = result.status === 'cannot' && market ? await changesFor(request, result, asked, market) : [];
  return {
    ...result,
    given: {
      plan: nearest?.plan ?? null,
      misses: nearest?.misses ?? graded(result.nearest?.misses ?? [], request),
      changes,
      assumed,
    },
  };
}

function openAt({ goal, feed, notes, proof, cautions, status: _, ...mix }: BlendMade): BlendOpen {
  return {
    status: 'open',
    goal,
    feed,
    notes,
    proof,
    cautions,
    unknowns: [],
    relaxations: [],
    nearest: { ...mix, misses: [] },
  };
}
