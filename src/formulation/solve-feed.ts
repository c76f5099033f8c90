import { type Optimal, solve } from '../../solver/index.js';
import type { EcLinearisation, EcStanding } from '../feed/ec-linearisation.js';
import { Proof, type FeedGoal, type Stage } from '../feed/proof.js';
import type { Amounts } from '../can/mix-amounts.js';
import { costing } from '../feed/price.js';
import { ecCap, type FeedRequest, withoutEcCap } from '../feed/request.js';
import { amountsOf } from './amounts.js';
import { chosen, fewestProducts, restrictTo, withAtMost } from './at-most.js';
import { closestStages, leastMiss } from './closest.js';
import { type Capped, linearisationOfMix, standingOf, underEcCap, withSecondLook } from './ec-cap.js';
import { type Formulated, formulate, leansOnEc } from './formulate.js';

/** What a request for a feed came to. */
export type FeedAnswer = FeedFound | FeedNone | FeedTooFew | FeedOpen;

interface Told {
  /** What the answer stands on; null without an EC cap. */
  linearisation: EcLinearisation | null;
  proof: Proof;
}

/** A mix that keeps every limit, the EC cap by the full model. */
export interface FeedFound extends Told {
  answer: 'found';
  amounts: Amounts;
  /** The certified answer of the last linear program. */
  optimal: Optimal;
  /** What the goal is judged by: cost per litre, or the largest relative miss of the closest feed. */
  figure: number;
}

/** No mix keeps every limit. */
export interface FeedNone extends Told {
  answer: 'none';
}

/** A mix exists, but none was found with so few products: proved, or on a search's word alone, as the proof says. */
export interface FeedTooFew extends Told {
  answer: 'too few';
  atMost: number;
  /** So many products do; null where that is not known either. */
  fewest: number | null;
}

/** Neither an answer nor the proof that there is none. */
export interface FeedOpen extends Told {
  answer: 'open';
  /** A mix that no round brought under the EC cap. */
  over: Amounts | null;
}

/**
 * The feed that a request asks for, by its own goal, with at most so many products where that is asked. The EC cap is kept by the full
 * model. Where its linearisation makes the limits contradict each other, the mix of least EC is sought, and the limits are only called
 * impossible where that, too, is over the cap.
 */
export async function solveFeed(request: FeedRequest): Promise<FeedAnswer> {
  return request.atMost === undefined ? anyNumber(request) : atMost(request, request.atMost);
}

/** The cheapest feed within the limits (the lightest, on a shelf without a price). */
export const cheapest = (request: FeedRequest): Promise<FeedAnswer> => solveFeed({ ...request, goal: 'cheapest' });

/** The feed closest to its aims, and the cheapest of those. */
export const closest = (request: FeedRequest): Promise<FeedAnswer> => solveFeed({ ...request, goal: 'closest' });

/** The least possible largest miss from the aims, as a share of the aim, with every limit kept; null where no mix does. */
export async function leastLargestMiss(request: FeedRequest): Promise<number | null> {
  const capped = await underCap(request, async (formulated) => ({ formulated, stages: [await leastMiss(formulated)] }));
  const verdict = capped.result.stages[0]!.verdict;
  return verdict.verdict === 'optimal' && capped.keeps ? Math.max(0, verdict.objective) : null;
}

async function anyNumber(request: FeedRequest): Promise<FeedAnswer> {
  const capped = await underCap(request, async (formulated) => ({ formulated, stages: await stagesOf(formulated) }));
  const { stages } = capped.result;
  const proof = Proof.of({ question: 'feed', ...questionOf(request, capped), stages });
  if (proof.verdict === 'infeasible') return { answer: 'none', linearisation: capped.linearisation, proof };
  return foundOr(capped, proof);
}

async function atMost(request: FeedRequest, most: number): Promise<FeedAnswer> {
  const capped = await underCap(request, (formulated) => bestChoice(formulated, most));
  if (amountsIn(capped.result)) return foundOr(capped, proofOfFew(request, capped, most, null));
  const { atMost: _, ...rest } = request;
  const any = await anyNumber(rest);
  if (any.answer !== 'found') return any;
  const { told, found } = await withoutTheCap(request, most, capped);
  if (found) return foundOr(told, proofOfFew(request, told, most, null));
  return {
    answer: 'too few',
    linearisation: any.linearisation,
    atMost: most,
    fewest: await fewestProducts(formulate(rest, any.linearisation)),
    proof: proofOfFew(request, told, most, any.proof),
  };
}

/**
 * Whether the EC cap is among the reasons why no choice of so few products keeps every limit. Where none does without the cap either, it is
 * not, and the proof stands whatever the linearisation; where one does, the cap is linearised at that mix and tried once more.
 */
async function withoutTheCap(
  request: FeedRequest,
  most: number,
  capped: Capped<Run>,
): Promise<{ told: Capped<Run>; found: boolean }> {
  if (ecCap(request) === null) return { told: capped, found: false };
  const result = await bestChoice(formulate(withoutEcCap(request), null), most);
  const amounts = amountsIn(result);
  if (!amounts) return { told: { result, linearisation: null, round: 1, presses: false, keeps: true }, found: false };
  const from = linearisationOfMix(amounts, request);
  const again = await underEcCap(request, (at) => bestChoice(at, most), amountsIn, { from });
  return amountsIn(again.result) ? { told: again, found: true } : { told: capped, found: false };
}

/** One program solved, stage by stage; with few products first for the choice, then for the products chosen. */
interface Run {
  formulated: Formulated;
  stages: readonly Stage[];
  choice?: readonly Stage[];
}

/**
 * Solves under the EC cap, a second time from the mix of least EC where the first linearisation, its EC row among the reasons, leaves no mix.
 */
async function underCap(request: FeedRequest, run: (formulated: Formulated) => Promise<Run>): Promise<Capped<Run>> {
  return withSecondLook(request, run, amountsIn, ({ formulated, stages, choice }) => {
    const { verdict } = lastOf(choice ?? stages);
    if (verdict.verdict === 'optimal') return 'no';
    return verdict.verdict === 'infeasible' && !verdict.cases && !leansOnEc(formulated, verdict.ray)
      ? 'no part'
      : 'may be';
  });
}

async function stagesOf(formulated: Formulated): Promise<Stage[]> {
  if (formulated.request.goal === 'closest') return closestStages(formulated);
  return [{ goal: 'cost', verdict: await solve(formulated.program) }];
}

/** The best choice of at most so many products; the amounts are solved again as a linear program, so that they carry that certificate. */
async function bestChoice(formulated: Formulated, most: number): Promise<Run> {
  const integer = withAtMost(formulated, most);
  const choice = await stagesOf(integer);
  const { verdict } = lastOf(choice);
  // of a search that was cut short, its best so far
  const best = verdict.verdict === 'uncertified' ? verdict.best : verdict.verdict === 'optimal' ? verdict : undefined;
  if (best === undefined) return { formulated, choice, stages: [] };
  const restricted = restrictTo(formulated, chosen(integer, best));
  return { formulated: restricted, choice, stages: await stagesOf(restricted) };
}

function amountsIn({ formulated, stages }: Run): Amounts | null {
  const verdict = stages.at(-1)?.verdict;
  return verdict?.verdict === 'optimal' ? amountsOf(verdict, formulated) : null;
}

function foundOr(capped: Capped<Run>, proof: Proof): FeedFound | FeedOpen {
  const { linearisation, result, keeps } = capped;
  const amounts = amountsIn(result);
  const last = result.stages.at(-1)?.verdict;
  const first = result.stages[0]?.verdict;
  if (!amounts || !keeps || last?.verdict !== 'optimal' || first?.verdict !== 'optimal')
    return { answer: 'open', linearisation, over: amounts, proof };
  return { answer: 'found', linearisation, amounts, optimal: last, figure: first.objective, proof };
}

function proofOfFew(request: FeedRequest, capped: Capped<Run>, most: number, anyNumber: Proof | null): Proof {
  const { stages, choice = [] } = capped.result;
  const any = anyNumber?.settled.question === 'feed' ? anyNumber.settled : null;
  return Proof.of({ question: 'at most', ...questionOf(request, capped), atMost: most, stages, choice, any });
}

function questionOf(
  { shelf, header, goal }: FeedRequest,
  capped: Capped<Run>,
): { goal: FeedGoal; unit: string; ec: EcStanding | null } {
  const inMoney = costing(shelf).counts === 'money';
  return {
    goal: goal === 'closest' ? 'closest' : inMoney ? 'cheapest' : 'lightest',
    unit: inMoney ? `${header.currency}/L` : 'g/L',
    ec: standingOf(capped),
  };
}

const lastOf = (stages: readonly Stage[]): Stage => stages.at(-1)!;
