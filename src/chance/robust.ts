import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import { missesOf, readOut } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { solveFeed } from '../formulation/index.js';
import { type LimitSpread, limitSpreads, mostTightened, tightened } from './tightened.js';
import { ordered } from '../dose/ordered.js';
import { planOnce } from '../dose/plan-once.js';
import type { DosePlan, PlanOptions, TrialPlan } from '../dose/plan-types.js';
import type { SureDoses, SureDosesOptions } from './robust-types.js';
import { problem, Refusal } from '../problem.js';
import { HELPS, remediesFor } from './remedies.js';
import { shareOf, sureness } from './sure.js';
import { judgedCan } from './sure-figures.js';

/**
 * Doses for a wanted share of batches. Each limit is tightened by k of its own standard deviations at the doses (a band, so a linear
 * program again), the feed is solved and measured out anew, and the share of that plan is counted in a simulation; k is bisected to the
 * least that reaches the share. The share is counted with a margin of three standard errors, so that another seed finds it too. An
 * alternative measure of the plan `keeps` where it keeps the tightened limits.
 * @throws Refusal where the share is not between 0 and 1 or the feed has no batch
 */
export async function sureDoses(
  request: FeedRequest,
  kit: Kit,
  share: number,
  options: SureDosesOptions = {},
): Promise<SureDoses> {
  if (!(share > 0 && share < 1))
    throw new Refusal([
      problem('sure', { field: 'sure' }, String(share), 'a share over 0 and under 1', 'Write for example 0.9.'),
    ]);
  const setting: Setting = { request, kit, options, target: targetOf(share, BATCHES) };
  const plain = await solved(setting, request, 0, 'together');
  if (!plain) return { status: 'no feed', wanted: share };
  const best = plain.share < setting.target ? await searched(setting, plain) : plain;
  const near = best.share >= share && best.share < setting.target;
  const batches = near ? MANY : BATCHES;
  const plan = ownPlan(best, request);
  const told = sureness(plan, request, { batches, seed: options.seed ?? 1, known: options.known });
  const counted = {
    plan,
    wanted: share,
    share: told.share,
    sureness: told,
    tightened: best.k,
    plain: { costPerLitre: plain.plan.mix.costPerLitre, largestDeviation: largestDeviation(plain.plan) },
    extraCostPerLitre: priced(plan) ? plan.mix.costPerLitre - plain.plan.mix.costPerLitre : null,
    extraDeviation: largestDeviation(plan) - largestDeviation(plain.plan),
  };
  if (told.share >= targetOf(share, batches)) return { status: 'reached', ...counted };
  const [first] = told.sources;
  return {
    status: 'short',
    ...counted,
    blame: first && first.shareWithout > told.share + HELPS ? first : null,
    remedies: options.remedies === false ? [] : await remediesFor(counted, request, kit, sureDoses, options),
  };
}

/** Batches that a share is counted on; the surest doses, where that leaves them in doubt, on more. */
const BATCHES = 8000;
const MANY = 64_000;
/** Steps of bisection on k: to a sixteenth. */
const STEPS = 4;
/** Near the most that the limits can be tightened nothing is left for spoons to round into. */
const NEAR_MOST = [0.95, 0.75];
/** Spreads change with the doses they were taken at; so often they are taken anew. */
const ROUNDS = 3;

type Way = NonNullable<PlanOptions['pick']>;

interface Setting {
  request: FeedRequest;
  kit: Kit;
  options: SureDosesOptions;
  target: number;
}

interface Tried {
  plan: TrialPlan;
  /** The blend that it measures out. */
  amounts: Amounts;
  share: number;
  k: number;
  pick: Way;
  spreads: LimitSpread[];
}

/**
 * The doses for limits tightened by k. Where an item is too little for the kit, the feed is also solved without it, and the surer plan
 * counts. Null where no feed keeps the limits.
 */
async function tried(setting: Setting, spreads: LimitSpread[], k: number, pick: Way): Promise<Tried | null> {
  const within = tightened(setting.request, spreads, k);
  const first = await solved(setting, within, k, pick);
  const little = first ? tooLittle(first.plan) : [];
  if (!first || little.length === 0 || first.share >= setting.target) return first;
  const shelf = within.shelf.map((product) => (little.includes(product.id) ? product.with({ onHand: 0 }) : product));
  const second = await solved(setting, { ...within, shelf }, k, pick);
  return second ? better(second, first) : first;
}

async function solved(setting: Setting, within: FeedRequest, k: number, pick: Way): Promise<Tried | null> {
  const found = await solveFeed(within);
  return found.answer === 'found' ? measured(setting, within, found.amounts, k, pick) : null;
}

/** Items that are left out, or so little that the nearest measure is far off. */
const tooLittle = ({ items, leftOut }: TrialPlan): string[] => [
  ...leftOut.map(({ product }) => product.id),
  ...items.filter(({ wanted, chosen }) => Math.abs(chosen.amount / wanted - 1) > FAR).map(({ product }) => product.id),
];
const FAR = 0.2;

/** Doses for a tightened feed, judged by the feed itself. */
async function measured(
  { request, kit, options }: Setting,
  within: FeedRequest,
  amounts: Amounts,
  k: number,
  pick: Way,
): Promise<Tried> {
  const plan = await planOnce(within, amounts, kit, { ...options, pick });
  const judged = judgedCan(plan, request, options.known);
  const share = shareOf(judged, BATCHES, options.seed ?? 1);
  return { plan, amounts, share, k, pick, spreads: limitSpreads(judged) };
}

/** A plan for tightened limits, read out against the limits themselves. */
function ownPlan({ plan: trial, amounts: blend, k }: Tried, request: FeedRequest): DosePlan {
  const plan = ordered(trial, blend);
  if (k === 0) return plan;
  const { batchLitres, items, sequence, leftOut, amounts, actions, tools, notes } = plan;
  const mix = readOut(amounts, request, sequence.turns);
  const violations = missesOf(mix);
  const proof = plan.proof.tightenedBy(k);
  const own = { batchLitres, items, sequence, leftOut, amounts, request, mix, actions, tools, notes, proof };
  return violations.length === 0 ? { status: 'kept', ...own } : { status: 'violated', ...own, violations, offers: [] };
}

/** The cheapest doses met that reach the target, or the surest. */
async function searched(setting: Setting, plain: Tried): Promise<Tried> {
  const surest = await surestOf(setting, plain);
  if (surest.share < setting.target) return surest;
  let best: Tried = surest;
  let [low, high] = [0, surest.k];
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (low + high) / 2;
    const found = await tried(setting, surest.base, middle, surest.pick);
    if (found && found.share >= setting.target) {
      high = middle;
      if (cheaper(found, best)) best = found;
    } else low = middle;
  }
  return best;
}

/** Moves the limits in as far as they go, takes the spreads anew at the doses found, and again; each item by its surest measure first. */
async function surestOf(setting: Setting, plain: Tried): Promise<Tried & { base: LimitSpread[] }> {
  let best: Tried & { base: LimitSpread[] } = { ...plain, base: plain.spreads };
  // with a scale the nearest steps are as good together as apart; spoonfuls are too coarse for that
  const ways: Way[] = setting.kit.scaleStepGrams === undefined ? ['surest', 'together'] : ['surest'];
  for (const pick of ways) {
    let at: Tried = best;
    for (let round = 0; round < ROUNDS && best.share < setting.target; round += 1) {
      const most = await mostTightened(setting.request, at.spreads, at.plan);
      if (most === null || most <= 0) break;
      let next: Tried | null = null;
      for (const part of NEAR_MOST) {
        const found = await tried(setting, at.spreads, part * most, pick);
        if (found && (!next || found.share > next.share)) next = found;
        if (found && found.share >= setting.target) break;
      }
      if (!next) break;
      if (next.share > best.share) best = { ...next, base: at.spreads };
      else if (round > 0) break;
      at = next;
    }
  }
  return best;
}

const better = (a: Tried, b: Tried): Tried => (a.share > b.share ? a : b);

/** Cheaper as measured; where nothing has a price, closer to the plain limits. */
function cheaper(a: Tried, b: Tried): boolean {
  const goal = a.plan.request.goal;
  if (goal === 'closest') return largestDeviation(a.plan) < largestDeviation(b.plan);
  return priced(a.plan) ? a.plan.mix.costPerLitre < b.plan.mix.costPerLitre : a.k < b.k;
}

/** The wanted share and three standard errors of the count, half way to certainty at most. */
function targetOf(share: number, batches: number): number {
  return Math.min(share + 3 * Math.sqrt((share * (1 - share)) / batches), (1 + share) / 2);
}

const priced = ({ mix }: TrialPlan): boolean => mix.items.some((item) => item.costPerLitre !== null);

function largestDeviation({ mix }: TrialPlan): number {
  return mix.elements.reduce(
    (most, { mgPerLitre, aim }) => (aim !== null && aim > 0 ? Math.max(most, Math.abs(mgPerLitre / aim - 1)) : most),
    0,
  );
}
