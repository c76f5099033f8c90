import { withReading } from '../../chance/reading.js';
import { roomFor } from '../../chance/tightened.js';
import { planOnce } from '../../dose/plan-once.js';
import type { DosePlan, TrialPlan } from '../../dose/plan-types.js';
import { ordered } from '../../dose/ordered.js';
import { withoutHopelessAlkalinity } from '../../feed/alkalinity-limit.js';
import { withoutCustom } from '../../feed/grade.js';
import type { Limited } from '../../formulation/index.js';
import { type FeedAnswer, linearisationOfMix, programOn } from '../../formulation/index.js';
import { Proof } from '../../feed/proof.js';
import { ecCap, type FeedRequest } from '../../feed/request.js';
import { productColumn, waterColumn } from '../../feed/terms.js';
import type { Amounts } from '../../can/mix-amounts.js';
import type { Hands } from '../handed.js';
import { fewestOf, leastPerLitre, thrifty, type Thrifty } from '../thrifty.js';
import { cansOf, type JudgedCans, movedInEach, type SharedCan, spreadsOf } from './cans.js';
import { cheapestShared, keepsEc, type Looser, sharedRequest, type Sharing } from './shared-request.js';

/** A mix that, with water added, feeds several. */
export interface SharedPlan {
  shares: true;
  plan: DosePlan;
  /** The strongest first: that is the mix itself. */
  cans: SharedCan[];
  /** Share of mixes of which every can keeps its limits. */
  all: number;
  /** How many times as far from their aims the feeds are held as by themselves, as planned. */
  stretch: number;
  /** Cost per litre of the mix. */
  costPerLitre: number;
  proof: Proof;
}

/** Why feeds cannot share a mix. */
export interface NotShared {
  shares: false;
  feeds: string[];
  /** `limits`: no mix serves them all, as near as each is by itself; `cans`: one does, but too few of its cans keep the limits. */
  why: { kind: 'limits'; against: Limited[]; stretch: number } | { kind: 'cans'; feed: string; share: number };
  proof: Proof;
}

/** Feeds that share a mix may be so many times as far from their aims as by themselves; who feeds by the spoon would not notice. */
export const MOST_STRETCH = 1.15;
const STEPS = 4;
/** Standard deviations by which limits are moved in, one after the other until enough cans keep them. */
const MOVED_IN = [0, 1.3, 1.9, 2.6];
/** A mix may lie this far outside the widths of the plan: hands work in steps. The last has no widths left. */
const LOOSER: readonly Looser[] = [
  { nitrogenWithin: 0.05, widths: 1.08 },
  { nitrogenWithin: 0.08, widths: 1.25 },
  { nitrogenWithin: 1, widths: Number.POSITIVE_INFINITY },
];
/** By a count of a few thousand cans shares differ by so much without meaning anything. */
const COUNTED = 0.01;

/**
 * One mix for several feeds: each near its aims about as it is by itself, its cans as sure, and the whole thrifty.
 * @param group the strongest first
 * @param alone share of cans that keep the limits of each with a mix of its own
 */
export async function planShared(
  group: readonly Sharing[],
  alone: readonly number[],
  hands: Hands,
): Promise<SharedPlan | NotShared> {
  const found = await limitsThatHold(group);
  if ('answer' in found) return refused(group, found.request, found.answer);
  const { limits } = found;
  const tried: Tried[] = [];
  for (const moved of MOVED_IN) {
    const one = await movedIn(group, limits, moved, tried.at(-1)?.cans, tried.at(-1)?.plan, hands);
    if (one === null) continue;
    tried.push(one);
    if (shortest(one, alone, hands) >= 0) break;
  }
  const [first] = tried;
  if (first === undefined) throw new Error('a shared mix was found, and then was not');
  const best = tried.reduce((a, b) => (shortest(b, alone, hands) > shortest(a, alone, hands) ? b : a), first);
  return told(group, best, alone, hands);
}

interface Tried {
  thrift: Thrifty;
  stretch: number;
  plan: TrialPlan;
  cans: JudgedCans;
  movedIn: boolean;
}

/** By how much the worst can is surer than was asked, or than it is by itself. */
const shortest = ({ cans: { cans } }: Tried, alone: readonly number[], { sure }: Hands): number =>
  Math.min(
    ...cans.map((can, i) =>
      can.violations.length > 0 ? -1 : can.sure - Math.min(sure + COUNTED, alone[i]! - COUNTED),
    ),
  );

/** All limits, or all but those that only convention stands behind; where even that is too much, the answer that says so. */
async function limitsThatHold(
  group: readonly Sharing[],
): Promise<{ limits: FeedRequest[] } | { answer: FeedAnswer; request: FeedRequest }> {
  const whole = group.map(({ request }) => withoutHopelessAlkalinity(request));
  const first = await cheapestShared(sharedRequest(group, MOST_STRETCH, whole));
  if (first.answer.answer === 'found') return { limits: whole };
  const graver = whole.map((request) => ({ ...request, programme: withoutCustom(request.programme) }));
  const second = await cheapestShared(sharedRequest(group, MOST_STRETCH, graver));
  return second.answer.answer === 'found' ? { limits: graver } : second;
}

/** With limits moved in by what their cans vary by, as near as that leaves; null where nothing does. */
async function movedIn(
  group: readonly Sharing[],
  limits: readonly FeedRequest[],
  moved: number,
  before: JudgedCans | undefined,
  plan: TrialPlan | undefined,
  hands: Hands,
): Promise<Tried | null> {
  let tight = limits;
  if (before && plan && moved > 0) {
    const spreads = spreadsOf(before, group);
    const room = await roomFor(sharedRequest(group, MOST_STRETCH, limits), spreads, plan, moved);
    if (room === null) return null;
    tight = movedInEach(group, limits, spreads, room);
  }
  const stretch = await leastStretch(group, tight);
  if (stretch === null) return null;
  for (const at of [stretch, MOST_STRETCH]) {
    const { request } = await cheapestShared(sharedRequest(group, at, tight));
    const thrift = await thrifty(request, leastPerLitre(request, hands));
    if (thrift === null || (thrift.mostCost === null && at < MOST_STRETCH)) continue;
    const amounts = keepsEc(thrift.amounts, request) ? thrift.amounts : thrift.answer.amounts;
    const made = await measured(group, limits, tight, at, amounts, hands);
    return { thrift, stretch: at, plan: made, cans: cansOf(made, group, hands), movedIn: tight !== limits };
  }
  return null;
}

async function leastStretch(group: readonly Sharing[], limits: readonly FeedRequest[]): Promise<number | null> {
  const does = async (stretch: number): Promise<boolean> =>
    (await cheapestShared(sharedRequest(group, stretch, limits))).answer.answer === 'found';
  if (await does(1)) return 1;
  if (!(await does(MOST_STRETCH))) return null;
  let [low, high] = [1, MOST_STRETCH];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (low + high) / 2;
    if (await does(middle)) high = middle;
    else low = middle;
  }
  return high;
}

/** Doses within the first of ever looser limits that the kit can keep in every can. */
async function measured(
  group: readonly Sharing[],
  limits: readonly FeedRequest[],
  tight: readonly FeedRequest[],
  stretch: number,
  amounts: Amounts,
  { kit, known }: Hands,
): Promise<TrialPlan> {
  let plan: TrialPlan | null = null;
  const [rounded, ...coarser] = LOOSER;
  const within = [
    sharedRequest(group, stretch, tight, rounded),
    ...[rounded!, ...coarser].map((by) => sharedRequest(group, stretch, limits, by)),
  ];
  for (const request of within) {
    plan = await planOnce(request, amounts, kit, { known });
    if (keeps(plan.amounts, request)) break;
  }
  return plan!;
}

/** Whether doses keep every row of a program, the EC caps by the full model. */
function keeps(amounts: Amounts, request: FeedRequest): boolean {
  const { limited } = programOn(request, ecCap(request) === null ? null : linearisationOfMix(amounts, request));
  const within = limited.every(({ limit, row }) => {
    if (limit.kind === 'water' || limit.kind === 'ec') return true;
    const parts = [
      ...amounts.products.map((x, i) => x * (row.terms[productColumn(i)] ?? 0)),
      ...amounts.waters.map((x, i) => x * (row.terms[waterColumn(i)] ?? 0)),
    ];
    const value = parts.reduce((sum, part) => sum + part, 0);
    const size = 1e-6 * Math.max(1e-9, ...parts.map(Math.abs), Math.abs(row.lower ?? row.upper ?? 0));
    return (
      value >= (row.lower ?? Number.NEGATIVE_INFINITY) - size && value <= (row.upper ?? Number.POSITIVE_INFINITY) + size
    );
  });
  return within && keepsEc(amounts, request);
}

/** Why no mix serves a group, by the program that says so. */
export function refused(group: readonly Sharing[], request: FeedRequest, answer: FeedAnswer): NotShared {
  const { settled } = answer.proof;
  const last = settled.question === 'feed' ? settled.stages.at(-1)!.verdict : null;
  const against =
    last?.verdict === 'infeasible'
      ? programOn(request, answer.linearisation).limited.filter(({ row }) => (last.ray[row.id] ?? 0) !== 0)
      : [];
  return {
    shares: false,
    feeds: namesOf(group),
    why: { kind: 'limits', against, stretch: MOST_STRETCH },
    proof: proofOf(group, MOST_STRETCH, answer, false, null),
  };
}

function told(
  group: readonly Sharing[],
  { thrift, stretch, plan, cans, movedIn: moved }: Tried,
  alone: readonly number[],
  hands: Hands,
): SharedPlan | NotShared {
  const proof = proofOf(group, stretch, thrift.answer, moved, thrift);
  const worst = cans.cans
    .map((can, i) => ({ can, short: can.sure - Math.min(hands.sure, alone[i]! - 2 * COUNTED) }))
    .sort((a, b) => a.short - b.short)[0]!;
  const violated = cans.cans.find(({ violations }) => violations.length > 0);
  if (group.length > 1 && (violated || worst.short < 0)) {
    const { sharing, sure } = violated ?? worst.can;
    const feed = sharing.request.header.name;
    return { shares: false, feeds: namesOf(group), why: { kind: 'cans', feed, share: violated ? 0 : sure }, proof };
  }
  const inOrder = ordered({ ...plan, request: group[0]!.request }, thrift.amounts);
  return {
    shares: true,
    plan: { ...inOrder, mix: withReading(inOrder.mix, inOrder, group[0]!.request) },
    cans: cans.cans,
    all: cans.all,
    stretch,
    costPerLitre: plan.mix.costPerLitre,
    proof,
  };
}

const namesOf = (group: readonly Sharing[]): string[] => group.map(({ request }) => request.header.name);

function proofOf(
  group: readonly Sharing[],
  stretch: number,
  answer: FeedAnswer,
  moved: boolean,
  thrift: Thrifty | null,
): Proof {
  const { settled } = answer.proof;
  if (settled.question !== 'feed') return answer.proof;
  const { goal, unit, ec, stages } = settled;
  return Proof.of({
    question: 'shared',
    goal,
    unit,
    ec,
    stages,
    feeds: group.map(({ request, parts }) => ({ name: request.header.name, share: parts.share })),
    stretch,
    movedIn: moved,
    fewest: thrift && fewestOf(thrift),
  });
}
