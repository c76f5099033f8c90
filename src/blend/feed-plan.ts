import { limitSpreads, roomFor, tightened } from '../chance/tightened.js';
import { ordered } from '../dose/ordered.js';
import { isMeasured } from '../dose/offered.js';
import { offersFor } from '../dose/offers.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { Limit, Miss } from '../feed/limits.js';
import { type NearAsked, nearBands } from '../feed/near.js';
import { withoutCustom } from '../feed/grade.js';
import { Proof } from '../feed/proof.js';
import { readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { cheapest, closest, type FeedAnswer, type FeedFound } from '../formulation/index.js';
import { CANS, counted, handed, type Handed, type Hands, missesByGrade } from './handed.js';
import { nearestOfAll, nearestWidth, type NearestWidth, nearRequest } from './near-width.js';
import { ownWidths } from './own-widths.js';
import { thrifty, type Thrifty } from './thrifty.js';

/** What is asked of a feed beside its limits. */
export interface FeedAsked extends Hands {
  /** `near`: near the aims, then cheap; `closest`: as near as the shelf comes, whatever it costs. */
  want: 'near' | 'closest';
  /** Times the usual widths around the aims; 1 unless somebody asks otherwise. */
  factor: number;
  /** Whether to work out what would make doses measurable that are not. */
  offers: boolean;
}

/** A feed as these hands mix it: near its aims, sure, and cheap. */
export interface FeedPlan {
  plan: DosePlan;
  near: { asked: NearAsked; stoppedBy: readonly Limit[] };
  /** Share of cans that keep the limits, and the share that was wanted. */
  share: number;
  wanted: number;
  /** Leasts that only convention stands behind and that this feed does not keep. */
  custom: Miss[];
  /** The mix before it was measured out; its certificate is in `proof`. */
  ideal: FeedFound;
  proof: Proof;
}

/** Standard deviations by which limits are moved in, one after the other until enough cans keep them. */
const MOVED_IN = [0, 1.3, 1.9, 2.6];
/** Doses may lie this far outside the widths of the plan: hands work in steps. */
const ROUNDED = { nitrogenWithin: 0.05, widths: 1.08 };
/** And where they cannot even do that, so far. */
const COARSE = { nitrogenWithin: 0.08, widths: 1.25 };
/** For sure cans, and for amounts that the kit can measure, the widths may grow by so much; who feeds by the spoon would not notice. */
const GROWTH = { times: 0.15, plus: 0.08, steps: 4 };
const MOST_GROWN = 1;

/**
 * The feed to give: near the aims first, then so that enough cans keep the limits, then the least money and the fewest items. Each step is a
 * certified program; the doses are a search over what the kit measures, and the cans are counted.
 * @returns the answer of the limits that cannot be kept, where there is no feed
 */
export async function planFeed(
  request: FeedRequest,
  asked: FeedAsked,
): Promise<FeedPlan | Exclude<FeedAnswer, FeedFound>> {
  const { within, nearest } = await withGrades(request, asked);
  if (!('found' in nearest)) return nearest;
  const setting: Setting = { request, within, asked };
  const tried = asked.want === 'closest' ? [await asNearAsCan(setting, nearest)] : await sureOnes(setting, nearest);
  const best = tried.reduce((a, b) => (b.handed.share > a.handed.share ? b : a));
  return told(setting, nearest, tried.find((one) => one.handed.share >= target(asked.sure)) ?? best);
}

/** The limits that hold whatever it costs: all of them, or all but those that only convention stands behind. */
async function withGrades(
  request: FeedRequest,
  { want, factor }: FeedAsked,
): Promise<{ within: FeedRequest; nearest: Awaited<ReturnType<typeof nearestWidth>> }> {
  const seek = (one: FeedRequest) => (want === 'closest' ? nearestOfAll(one) : nearestWidth(one, factor));
  const nearest = await seek(request);
  if ('found' in nearest) return { within: request, nearest };
  const within = { ...request, programme: withoutCustom(request.programme) };
  return { within, nearest: await seek(within) };
}

interface Setting {
  request: FeedRequest;
  /** The same with the limits that have to hold. */
  within: FeedRequest;
  asked: FeedAsked;
}

interface Tried {
  handed: Handed;
  near: NearAsked;
  thrift: Thrifty;
  movedIn: boolean;
}

/** One plan after another, each with its limits moved in further, until cans enough keep the limits. */
async function sureOnes(setting: Setting, nearest: NearestWidth): Promise<Tried[]> {
  const near = await ownWidths(setting.within, nearest, setting.asked);
  const tried: Tried[] = [];
  for (const moved of MOVED_IN) {
    const found = await movedIn(setting, near, moved, tried.at(-1)?.handed);
    if (found) tried.push(found);
    if (found && found.handed.share >= target(setting.asked.sure)) break;
  }
  if (tried.length === 0) throw new Error('the nearest mix was found, and then was not');
  return tried;
}

/** The widths grow as little as the limits, moved in, and the kit ask; null where they would have to grow too far. */
async function movedIn(
  { request, within, asked }: Setting,
  near: NearAsked,
  moved: number,
  before: Handed | undefined,
): Promise<Tried | null> {
  const spreads = before && moved > 0 ? limitSpreads(before.judged) : [];
  const room =
    spreads.length === 0
      ? []
      : await roomFor(nearRequest(within, grown(near, MOST_GROWN)), spreads, before!.plan, moved);
  if (room === null) return null;
  const tight = spreads.length === 0 ? within : tightened(within, spreads, room);
  const least = await leastGrowth(tight, near);
  if (least === null) return null;
  let best: { thrift: Thrifty; near: NearAsked } | null = null;
  for (const growth of [least, (least + MOST_GROWN) / 2, MOST_GROWN]) {
    const own = grown(near, growth);
    const thrift = await thrifty(nearRequest(tight, own), asked);
    if (thrift && (best === null || thrift.mostCost !== null)) best = { thrift, near: own };
    // no item is below what the kit can measure
    if (thrift && thrift.mostCost !== null) break;
  }
  if (best === null) return null;
  const limits = [
    loose(tight, best.near, ROUNDED),
    loose(within, best.near, ROUNDED),
    loose(within, best.near, COARSE),
    loose(within, best.near, { ...COARSE, widths: Number.POSITIVE_INFINITY }),
    within,
  ];
  const made = await handed(request, limits, best.thrift.amounts, asked);
  return { handed: made, ...best, movedIn: spreads.length > 0 };
}

/** The widths of a plan, each grown to the same share of what they may grow: a little more than 1.15 times at most. */
function grown(near: NearAsked, share: number): NearAsked {
  const by = (factor: number): number => factor + share * (GROWTH.times * factor + GROWTH.plus);
  return {
    ...near,
    factor: by(near.factor),
    own: Object.fromEntries(Object.entries(near.own ?? {}).map(([nutrient, factor]) => [nutrient, by(factor)])),
  };
}

/** The least share of that growth at which the limits can be kept; null where none does. */
async function leastGrowth(request: FeedRequest, near: NearAsked): Promise<number | null> {
  const does = async (share: number): Promise<boolean> =>
    (await cheapest(nearRequest(request, grown(near, share)))).answer === 'found';
  if (await does(0)) return 0;
  if (!(await does(MOST_GROWN))) return null;
  let [low, high] = [0, MOST_GROWN];
  for (let step = 0; step < GROWTH.steps; step += 1) {
    const middle = (low + high) / 2;
    if (await does(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** As near as the shelf comes: at the least widths the least sum of misses. */
async function asNearAsCan({ request, within, asked }: Setting, { asked: near, found }: NearestWidth): Promise<Tried> {
  const held = nearRequest(within, near);
  const answer = await closest(held);
  const ideal = answer.answer === 'found' ? answer : found;
  const made = await handed(
    request,
    [loose(within, near, ROUNDED), loose(within, near, COARSE), within],
    ideal.amounts,
    asked,
  );
  const items = ideal.amounts.products.filter((x) => x > 0).length;
  const thrift: Thrifty = {
    amounts: ideal.amounts,
    answer: ideal,
    cost: ideal.optimal.objective,
    mostCost: null,
    items,
    branches: null,
  };
  return { handed: made, near, thrift, movedIn: false };
}

const loose = (request: FeedRequest, near: NearAsked, by: typeof ROUNDED): FeedRequest => ({
  ...request,
  near: nearBands(request.programme, {
    ...near,
    nitrogenWithin: Math.max(near.nitrogenWithin, by.nitrogenWithin),
    factor: near.factor * by.widths,
    own: Object.fromEntries(Object.entries(near.own ?? {}).map(([n, own]) => [n, own * by.widths])),
  }),
});

/** With two standard errors of the count in hand, so that another count finds it too. */
function target(share: number): number {
  return Math.min(share + 2 * Math.sqrt((share * (1 - share)) / CANS), (1 + share) / 2);
}

async function told({ request, within, asked }: Setting, nearest: NearestWidth, best: Tried): Promise<FeedPlan> {
  const { handed: made, near, thrift } = best;
  const trial = { ...made.plan, proof: made.plan.proof };
  const inOrder = ordered({ ...trial, request }, made.amounts);
  const mix = readOut(inOrder.amounts, request, inOrder.sequence.turns);
  const { custom, graver } = missesByGrade(mix, request);
  const own = { ...inOrder, mix, request: counted(request, { mix }) };
  const short = asked.offers && (graver.length > 0 || !isMeasured(own));
  const offers = short ? await offersFor(within, made.amounts, asked.kit, asked) : [];
  const plan: DosePlan =
    graver.length === 0
      ? { ...withoutViolations(own), offers }
      : { ...own, status: 'violated', violations: graver, offers };
  return {
    plan,
    near: { asked: near, stoppedBy: nearest.stoppedBy },
    share: made.share,
    wanted: asked.sure,
    custom,
    ideal: thrift.answer,
    proof: proofOf(best, nearest),
  };
}

function withoutViolations(plan: DosePlan): DosePlan {
  if (plan.status === 'kept') return plan;
  const { violations: _, offers: __, ...rest } = plan;
  return { ...rest, status: 'kept' };
}

/** Of the very question: near as asked, limits moved in or not, and the fewest items for hardly more. */
function proofOf({ near, thrift, movedIn: moved }: Tried, { nearer }: NearestWidth): Proof {
  const { settled } = thrift.answer.proof;
  if (settled.question !== 'feed' && settled.question !== 'at most') return thrift.answer.proof;
  const { goal, unit, ec, stages } = settled;
  return Proof.of({
    question: 'plan',
    goal,
    unit,
    ec,
    stages,
    near,
    nearer,
    movedIn: moved,
    few: settled.question === 'at most' ? settled : null,
    fewest:
      thrift.mostCost === null || thrift.branches === null
        ? null
        : { items: thrift.items, mostCost: thrift.mostCost, branches: thrift.branches },
  });
}
