import { limitSpreads, mostRoom, roomFor, tightened } from '../chance/tightened.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { Limit, Miss } from '../feed/limits.js';
import { type NearAsked, nearBands, NITROGEN_WITHIN } from '../feed/near.js';
import { withoutHopelessAlkalinity } from '../feed/alkalinity-limit.js';
import { withoutCustom } from '../feed/grade.js';
import type { Proof } from '../feed/proof.js';
import { proofOf } from './plan-proof.js';
import type { FeedRequest } from '../feed/request.js';
import { closest, type FeedAnswer, type FeedFound } from '../formulation/index.js';
import { CANS, handed, type Handed, type Hands } from './handed.js';
import { readPlan } from './read-plan.js';
import { farthest, leaps } from './farthest.js';
import { nearestOfAll, nearestWidth, type NearestWidth, nearRequest } from './near-width.js';
import { grown, MOST_GROWN, mostRounded, withFactors, worthwhile } from './growth.js';
import { allowance, alone, leastPerLitre, thrifty, type Thrifty } from './thrifty.js';

/** What is asked of a feed beside its limits. */
export interface FeedAsked extends Hands {
  /** `near`: near the aims, then cheap; `closest`: as near as the shelf comes, whatever it costs. */
  want: 'near' | 'closest';
  /** Times the usual widths around the aims; 1 unless somebody asks otherwise. */
  factor: number;
  /** Whether to work out what would make doses measurable that are not. */
  offers: boolean;
  /** Shares of its aim within which nitrogen is planned, the first that leaves cans enough; unasked 2, 5, 10 and 20 %. */
  nitrogen?: readonly number[] | undefined;
  /** Waited for between plans; rejects where nobody wants the feed any more. */
  pause?: (() => Promise<void>) | undefined;
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
  /** The program's request that `ideal` and the fewest items are of: the limits, moved in or not, and the widths. */
  held: FeedRequest;
  /** What was asked, without the iron that its chelate does not hold. */
  request: FeedRequest;
  /** What was to be measured out, and the limits that doses of it were held within. */
  measuring: { amounts: Amounts; within: FeedRequest };
  proof: Proof;
}

/** Standard deviations by which limits are moved in, one after the other until enough cans keep them. */
const MOVED_IN = [0, 1.3, 1.9, 2.6];
const DEAR = 1.9;
/** Doses may lie this far outside the widths of the plan: hands work in steps. */
const ROUNDED = { nitrogenWithin: 0.05, widths: 1.08 };
/** And where they cannot even do that, so far. */
const COARSE = { nitrogenWithin: 0.08, widths: 1.25 };
/**
 * Until the kit can measure a mix: the share of their growth at which widths are tried, how many times the usual is spent on fewer items, and
 * whether the element that is farthest off may go past what steps of the hands may take.
 */
const TRIED = [
  ...[0, 0.5, 1, 2, 4].map((growth) => ({ growth, spend: 1, past: false })),
  { growth: 4, spend: 2, past: false },
  ...[3, 5, 8].map((growth) => ({ growth, spend: 2, past: true })),
];
/** Sure cans may cost so many times what the others do, or a hundredth of the currency a can more; where that is not enough, up to `SUREST`. */
const SURER = 1.25;
const SUREST = 2.5;
/** Where too few cans keep the limits, nitrogen is held less tightly, step by step: a can is fine anywhere in its band, a limit crossed is not. */
const NITROGEN = [NITROGEN_WITHIN, 0.05, 0.1, 0.2];
/** Dearer than that, or farther from nitrogen's aim, only for so many more cans. */
const WORTH_IT = 0.1;

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
  const setting: Setting = { request, within, asked, least: leastPerLitre(request, asked) };
  if (asked.want === 'closest') return told(setting, nearest, await asNearAsCan(setting, nearest));
  const first = bestOf(await sureOnes(setting, nearest), asked);
  let best = { nearest, tried: first };
  for (const nitrogen of (asked.nitrogen ?? NITROGEN).slice(1)) {
    if (best.tried.handed.share >= target(asked.sure) || nitrogen <= nearest.asked.nitrogenWithin) continue;
    const other = await nearestWidth(within, asked.factor, {}, nitrogen);
    if (!('found' in other) || !(await mayKeepHalf(setting, other, best.tried.handed))) continue;
    const tried = bestOf(await sureOnes(setting, other), asked);
    if (tried.handed.share >= best.tried.handed.share + WORTH_IT) best = { nearest: other, tried };
  }
  return told(setting, best.nearest, best.tried);
}

/** Whether a mix near these widths leaves every limit to half of the cans; where none does, none is worth another look. */
async function mayKeepHalf({ within }: Setting, { asked }: NearestWidth, { judged, plan }: Handed): Promise<boolean> {
  const room = await mostRoom(loose(within, asked, COARSE, mostRounded(asked)), limitSpreads(judged), plan);
  return room !== null && room > 0;
}

/** The first that enough cans keep, or the one that most do. */
const bestOf = (tried: readonly Tried[], { sure }: FeedAsked): Tried =>
  tried.find(({ handed: { share } }) => share >= target(sure)) ??
  tried.reduce((a, b) => (b.handed.share > a.handed.share ? b : a));

/** Times as far from the aims that what only convention asks for may bring the plan. */
const FARTHER = 1.15;

/** The limits that hold whatever it costs, all of them or all but those that only convention stands behind, and the least widths within. */
export async function withGrades(
  request: FeedRequest,
  { want, factor, nitrogen: [first] = NITROGEN }: Pick<FeedAsked, 'want' | 'factor' | 'nitrogen'>,
  width = nearestWidth,
): Promise<{ within: FeedRequest; nearest: Awaited<ReturnType<typeof nearestWidth>> }> {
  const seek = (one: FeedRequest) => (want === 'closest' ? nearestOfAll(one, width) : width(one, factor, {}, first));
  const whole = withoutHopelessAlkalinity(request);
  const nearest = await seek(whole);
  if ('found' in nearest && nearest.asked.nitrogenWithin <= first! && nearest.asked.factor <= factor * FARTHER)
    return { within: whole, nearest };
  const within = { ...request, programme: withoutCustom(request.programme) };
  const without = await seek(within);
  // nitrogen at its aim is worth more than what only convention asks for
  const isBetter =
    !('found' in nearest) ||
    ('found' in without &&
      (without.asked.nitrogenWithin < nearest.asked.nitrogenWithin * 0.95 ||
        without.asked.factor * FARTHER < nearest.asked.factor));
  return isBetter ? { within, nearest: without } : { within: whole, nearest };
}

interface Setting {
  request: FeedRequest;
  /** The same with the limits that have to hold. */
  within: FeedRequest;
  asked: FeedAsked;
  /** What the hands can measure of each product at least. */
  least: readonly number[];
}

interface Tried {
  handed: Handed;
  near: NearAsked;
  thrift: Thrifty;
  movedIn: boolean;
}

/** One plan after another, each with its limits moved in further, until cans enough keep the limits. */
async function sureOnes(setting: Setting, nearest: NearestWidth): Promise<Tried[]> {
  const tried: Tried[] = [];
  const isSure = ({ handed: { share } }: Tried): boolean => share >= target(setting.asked.sure);
  const shareOfAll = (): number => Math.max(...tried.map(({ handed: { share } }) => share));
  for (const by of MOVED_IN) {
    await setting.asked.pause?.();
    const mostCost = tried[0]
      ? Math.max(SURER * tried[0].thrift.cost, allowance(tried[0].thrift.cost, setting.request))
      : null;
    const before = tried.at(-1);
    const found = await movedIn(setting, nearest, { by, mostCost }, before?.handed);
    if (found === null) continue;
    tried.push(found);
    if (!isSure(found)) continue;
    if (before === undefined || !leaps(found.handed.plan.mix, nearest.asked)) return tried;
    // the kit may ask for far widths where limits are moved in so far, and not a little before
    const half = (by + MOVED_IN[MOVED_IN.indexOf(by) - 1]!) / 2;
    const other = await movedIn(setting, nearest, { by: half, mostCost }, before.handed);
    const lies = ({ handed: { plan } }: Tried): number => farthest(plan.mix, nearest.asked);
    return other && isSure(other) && lies(other) < lies(found) ? [...tried.slice(0, -1), other] : tried;
  }
  if (tried.length === 0) throw new Error('the nearest mix was found, and then was not');
  const mostCost = Math.max(SUREST * tried[0]!.thrift.cost, allowance(tried[0]!.thrift.cost, setting.request, 3));
  const dearer = await movedIn(setting, nearest, { by: DEAR, mostCost }, tried.at(-1)?.handed);
  return dearer && dearer.handed.share >= shareOfAll() + WORTH_IT ? [...tried, dearer] : tried;
}

interface MovedIn {
  /** Standard deviations. */
  by: number;
  /** What room for them may cost per litre; null where nothing is moved in. */
  mostCost: number | null;
}

/** The widths grow as little as the limits, moved in, and the kit ask; null where they would have to grow too far. */
async function movedIn(
  { request, within, asked, least }: Setting,
  nearest: NearestWidth,
  { by, mostCost }: MovedIn,
  before: Handed | undefined,
): Promise<Tried | null> {
  const spreads = before && by > 0 ? limitSpreads(before.judged) : [];
  const widest = nearRequest(within, grown(nearest.asked, MOST_GROWN));
  const room = spreads.length === 0 ? [] : await roomFor(widest, spreads, before!.plan, by, mostCost);
  if (room === null) return null;
  const tight = spreads.length === 0 ? within : tightened(within, spreads, room);
  const from = await worthwhile(tight, nearest, asked);
  if (from === null) return null;
  const most = mostRounded(nearest.asked);
  const best = await measurable(tight, from, most, least);
  if (best === null) return null;
  const { near } = best;
  const made = await handed(
    request,
    {
      near: [
        loose(tight, near, ROUNDED, most),
        loose(within, near, ROUNDED, most),
        loose(within, near, COARSE, most),
        loose(within, near, COARSE),
      ],
      far: [loose(within, near, { ...COARSE, widths: Number.POSITIVE_INFINITY }), within],
    },
    best.thrift.amounts,
    asked,
  );
  return { handed: made, ...best, movedIn: spreads.length > 0 };
}

/** The thriftiest mix, at widths grown until none of its items is below what the kit can measure, or as far as they may. */
async function measurable(
  tight: FeedRequest,
  from: NearAsked,
  most: number,
  least: readonly number[],
): Promise<{ thrift: Thrifty; near: NearAsked } | null> {
  let best: { thrift: Thrifty; near: NearAsked } | null = null;
  for (const { growth, spend, past } of TRIED) {
    const near = withFactors(grown(from, growth), (factor) =>
      past ? factor : Math.min(factor, Math.max(most, from.factor)),
    );
    const thrift = await thrifty(nearRequest(tight, near), least, spend);
    if (thrift && (best === null || thrift.mostCost !== null)) best = { thrift, near };
    if (thrift && thrift.mostCost !== null) break;
  }
  return best;
}

/** As near as the shelf comes: at the least widths the least sum of misses. */
async function asNearAsCan({ request, within, asked }: Setting, { asked: near, found }: NearestWidth): Promise<Tried> {
  const held = nearRequest(within, near);
  const ideal = await nearestAt(held, found);
  const made = await handed(
    request,
    { near: [loose(within, near, ROUNDED), loose(within, near, COARSE)], far: [within] },
    ideal.amounts,
    asked,
  );
  return { handed: made, near, thrift: alone(held, ideal), movedIn: false };
}

/** The mix that comes nearest to the aims, before it is measured out; null where there is none. */
export async function closestMix(request: FeedRequest): Promise<FeedFound | null> {
  const { within, nearest } = await withGrades(request, { want: 'closest', factor: 1 });
  return 'found' in nearest ? nearestAt(nearRequest(within, nearest.asked), nearest.found) : null;
}

/** Within its widths the least sum of misses. */
async function nearestAt(held: FeedRequest, found: FeedFound): Promise<FeedFound> {
  const answer = await closest(held);
  return answer.answer === 'found' ? answer : found;
}

/** The limits with widths that doses may reach; not past `most`, a factor. */
function loose(
  request: FeedRequest,
  near: NearAsked,
  by: typeof ROUNDED,
  most = Number.POSITIVE_INFINITY,
): FeedRequest {
  const wider = (factor: number): number => Math.max(factor, Math.min(factor * by.widths, most));
  const nitrogenWithin = Math.max(near.nitrogenWithin, by.nitrogenWithin);
  return { ...request, near: nearBands(request.programme, { ...withFactors(near, wider), nitrogenWithin }) };
}

/** With two standard errors of the count in hand, so that another count finds it too. */
function target(share: number): number {
  return Math.min(share + 2 * Math.sqrt((share * (1 - share)) / CANS), (1 + share) / 2);
}

async function told({ request, within, asked }: Setting, nearest: NearestWidth, best: Tried): Promise<FeedPlan> {
  const { handed: made, near, thrift } = best;
  const { plan, custom } = readPlan(made.plan, made.amounts, request);
  return {
    plan,
    near: { asked: near, stoppedBy: nearest.stoppedBy },
    share: made.share,
    wanted: asked.sure,
    custom,
    ideal: thrift.answer,
    held: thrift.held,
    request,
    measuring: { amounts: made.amounts, within },
    proof: proofOf(best, nearest),
  };
}
