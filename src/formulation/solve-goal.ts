import { solve, type Verdict } from '../../solver/index.js';
import { amountsOf } from './amounts.js';
import { chosen, restrictTo, withAtMost } from './at-most.js';
import { type Stage, solveClosest } from './closest.js';
import { type Capped, leastEc, underEcCap } from './ec-cap.js';
import { type Formulated, formulate } from './formulate.js';
import type { Amounts } from '../can/mix-amounts.js';
import { ecCap, type FeedRequest } from '../feed/request.js';

/** What the goal of a request came to, with the legend of the program that told. */
export interface Solved {
  verdict: Verdict;
  formulated: Formulated;
  stages?: Stage[];
  /** What the integer program proved about the choice of products. */
  choiceBound?: number;
}

/**
 * Solves under the EC cap. Where the linearisation makes the limits contradict each other with the EC row among them, the mix of least EC is
 * sought, and the limits are only called impossible where that, too, is over the cap by the full model.
 */
export async function solveUnderCap(request: FeedRequest): Promise<Capped<Solved>> {
  const run = (at: FeedRequest): Promise<Solved> => solveGoal(formulate(at), at);
  const mixOf = ({ verdict, formulated }: Solved): Amounts | null =>
    verdict.verdict === 'optimal' ? amountsOf(verdict, formulated) : null;
  const first = await underEcCap(request, run, mixOf);
  const { verdict } = first.result;
  if (verdict.verdict === 'optimal' || ecCap(request) === null) return first;
  if (verdict.verdict === 'infeasible' && !verdict.cases && (verdict.ray.ec ?? 0) === 0)
    return { ...first, presses: false };
  const least = await leastEc(request);
  if (!least) return { ...first, presses: false };
  const inside = least.ec <= ecCap(request)! ? least.amounts : null;
  return underEcCap({ ...request, ecLinearisation: least.linearisation }, run, mixOf, inside);
}

/** Solves a request by its goal, with at most so many products where that is asked. */
export async function solveGoal(formulated: Formulated, request: FeedRequest): Promise<Solved> {
  const run = request.goal === 'closest' ? closest : cheapest;
  if (request.atMost === undefined) return run(formulated, request);
  const integer = withAtMost(formulated, request.atMost);
  const choice = await run(integer, request);
  if (choice.verdict.verdict !== 'optimal') return choice;
  const solved = await run(restrictTo(formulated, chosen(integer, choice.verdict)), request);
  return { ...solved, choiceBound: choice.verdict.bound };
}

/** What the goal is judged by: cost per litre, or the largest relative miss of the closest feed; null without an answer. */
export function figureOf({ verdict, stages }: Solved): number | null {
  if (verdict.verdict !== 'optimal') return null;
  return stages ? stages[0]!.verdict.objective : verdict.objective;
}

async function cheapest(formulated: Formulated): Promise<Solved> {
  return { verdict: await solve(formulated.program), formulated };
}

async function closest(formulated: Formulated, request: FeedRequest): Promise<Solved> {
  const staged = await solveClosest(formulated, request);
  return staged.verdict === 'optimal'
    ? { verdict: staged.last, stages: staged.stages, formulated }
    : { verdict: staged, formulated };
}
