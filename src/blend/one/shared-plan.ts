import { withReading } from '../../chance/reading.js';
import { roomFor } from '../../chance/tightened.js';
import type { DosePlan, TrialPlan } from '../../dose/plan-types.js';
import { ordered } from '../../dose/ordered.js';
import { withoutHopelessAlkalinity } from '../../feed/alkalinity-limit.js';
import { withoutCustom } from '../../feed/grade.js';
import type { Limited } from '../../formulation/index.js';
import { type FeedAnswer, programOn } from '../../formulation/index.js';
import { Proof } from '../../feed/proof.js';
import type { FeedRequest } from '../../feed/request.js';
import type { WayOut } from '../given-types.js';
import type { Hands } from '../handed.js';
import { fewestOf, leastPerLitre, thrifty, type Thrifty } from '../thrifty.js';
import { cansOf, type JudgedCans, movedInEach, type SharedCan, spreadsOf } from './cans.js';
import { measured } from './shared-doses.js';
import { cheapestShared, keepsEc, sharedRequest, type Sharing } from './shared-request.js';

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
  /** How its doses are had although the kit alone, for as much as the strongest feed takes, cannot; null where it can. */
  wayOut: WayOut | null;
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
/** By a count of a few thousand cans shares differ by so much without meaning anything. */
const COUNTED = 0.01;

/** A mix for several feeds, tried with some hands. */
export interface Tried {
  thrift: Thrifty;
  stretch: number;
  plan: TrialPlan;
  cans: JudgedCans;
  movedIn: boolean;
  /** The feeds by the limits that hold. */
  limits: readonly FeedRequest[];
}

/**
 * One mix for several feeds: each near its aims about as it is by itself, its cans as sure, and the whole thrifty; or why no mix serves them.
 * @param group the strongest first
 * @param alone share of cans that keep the limits of each with a mix of its own
 */
export async function tryShared(
  group: readonly Sharing[],
  alone: readonly number[],
  hands: Hands,
): Promise<Tried | NotShared> {
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
  return tried.reduce((a, b) => (shortest(b, alone, hands) > shortest(a, alone, hands) ? b : a), first);
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
    return { thrift, stretch: at, plan: made, cans: cansOf(made, group, hands), movedIn: tight !== limits, limits };
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

/** Whether every can keeps what it has to, and enough of them do. */
export const serves = ({ cans: { cans } }: Tried, alone: readonly number[], { sure }: Hands): boolean =>
  cans.every((can, i) => can.violations.length === 0 && can.sure >= Math.min(sure, alone[i]! - 2 * COUNTED));

/** A mix that serves its feeds, in the order that it goes in. */
export function sharedOf(group: readonly Sharing[], tried: Tried, wayOut: WayOut | null): SharedPlan {
  const { thrift, stretch, plan, cans } = tried;
  const inOrder = ordered({ ...plan, request: group[0]!.request }, thrift.amounts);
  return {
    shares: true,
    plan: { ...inOrder, mix: withReading(inOrder.mix, inOrder, group[0]!.request) },
    cans: cans.cans,
    all: cans.all,
    stretch,
    costPerLitre: plan.mix.costPerLitre,
    wayOut,
    proof: proofOfTried(group, tried),
  };
}

/** Of which feed too few cans of a mix keep the limits. */
export function sparse(group: readonly Sharing[], tried: Tried, alone: readonly number[], { sure }: Hands): NotShared {
  const short = (can: SharedCan, i: number): number => can.sure - Math.min(sure, alone[i]! - 2 * COUNTED);
  const { cans } = tried.cans;
  const [worst] = cans.map((can, i) => ({ can, short: short(can, i) })).sort((a, b) => a.short - b.short);
  const violated = cans.find(({ violations }) => violations.length > 0);
  const can = violated ?? worst!.can;
  const why = { kind: 'cans' as const, feed: can.sharing.request.header.name, share: violated ? 0 : can.sure };
  return { shares: false, feeds: namesOf(group), why, proof: proofOfTried(group, tried) };
}

const proofOfTried = (group: readonly Sharing[], { stretch, thrift, movedIn: moved }: Tried): Proof =>
  proofOf(group, stretch, thrift.answer, moved, thrift);

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
