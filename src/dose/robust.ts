import type { Kit } from '../catalog/bench-types.js';
import { amountsOf } from '../formulation/amounts.js';
import { closeShelf } from '../formulation/close.js';
import { missesOf, readOut } from '../formulation/readout.js';
import type { FeedRequest } from '../formulation/request.js';
import { solveUnderCap } from '../formulation/solve-goal.js';
import { type LimitSpread, limitSpreads, mostNarrow, narrowed } from './narrowed.js';
import { planDoses } from './plan.js';
import type { DosePlan } from './plan-types.js';
import type { SureDoses, SureDosesOptions } from './robust-types.js';
import { blameOf, sentenceOf } from './robust-words.js';
import { sureness } from './sure.js';
import { toolsOf } from './tools.js';

/**
 * Doses for a wanted share of batches. Each limit is moved in by k of its own standard deviations at the doses (a band, so a linear
 * program again), the feed is solved and measured out anew, and the share of that plan is counted in a simulation; k is bisected to the
 * least that reaches the share. The share is counted with a margin of three standard errors, so that another seed finds it too.
 */
export async function sureDoses(
  asked: FeedRequest,
  kit: Kit,
  share: number,
  options: SureDosesOptions = {},
): Promise<SureDoses> {
  const request = { ...asked, shelf: await closeShelf(asked.shelf) };
  const plain = await tried({ request, kit, options }, null, 0);
  if (!plain) return noFeed(share);
  const search = { request, kit, options, target: targetOf(share) };
  let best = plain;
  if (plain.share < search.target) {
    best = better(await searched(search, plain), plain);
    const exact = exactKit(kit);
    if (best.share < search.target && exact) best = better(await searched({ ...search, kit: exact }, best), best);
  }
  const reached = best.share >= search.target;
  const told = sureness(best.plan, request, { batches: BATCHES, seed: options.seed ?? 1 });
  const result: SureDoses = {
    status: reached ? 'reached' : 'short',
    plan: { ...best.plan, tools: toolsOf(kit) },
    wanted: share,
    share: best.share,
    sureness: told,
    k: best.k,
    extraCostPerLitre: priced(best.plan) ? best.plan.mix.costPerLitre - plain.plan.mix.costPerLitre : null,
    extraMiss: largestMiss(best.plan) - largestMiss(plain.plan),
    remedies: [],
    sentence: '',
  };
  if (!reached && options.remedies !== false) result.remedies = await blameOf(result, request, kit, sureDoses, options);
  return { ...result, sentence: sentenceOf(result, plain.plan) };
}

/** Batches that a share is counted on. */
const BATCHES = 8000;
/** Steps of bisection on k: to a sixteenth. */
const STEPS = 4;
/** Near the most that the limits can be moved in nothing is left for spoons to round into. */
const NEAR_MOST = [0.95, 0.75];
/** Spreads change with the doses they were taken at; so often they are taken anew. */
const ROUNDS = 3;

interface Setting {
  request: FeedRequest;
  kit: Kit;
  options: SureDosesOptions;
}

interface Tried {
  plan: DosePlan;
  share: number;
  k: number;
  spreads: LimitSpread[];
}

/** The doses for limits moved in by k; null where no feed keeps them. */
async function tried(setting: Setting, spreads: LimitSpread[] | null, k: number): Promise<Tried | null> {
  const { request, kit, options } = setting;
  const within = spreads === null ? request : narrowed(request, spreads, k);
  const { result } = await solveUnderCap(within);
  if (result.verdict.verdict !== 'optimal') return null;
  const amounts = amountsOf(result.verdict, result.formulated);
  const found = await planDoses(within, amounts, kit, { ...options, offers: false });
  const mix = readOut(found.amounts, request);
  const misses = missesOf(mix);
  const plan: DosePlan = { ...found, request, mix, misses, status: misses.length === 0 ? 'kept' : 'missed' };
  const { share } = sureness(plan, request, { batches: BATCHES, seed: options.seed ?? 1, sources: false });
  return { plan, share, k, spreads: limitSpreads(plan, request) };
}

/** The least k that reaches the target, or the surest doses met on the way. */
async function searched(setting: Setting & { target: number }, from: Tried): Promise<Tried> {
  const { request, target } = setting;
  let best = from;
  let base = from;
  for (let round = 0; round < ROUNDS && best.share < target; round += 1) {
    const most = await mostNarrow(request, base.spreads, base.plan);
    if (most === null || most <= 0) break;
    const before = best.share;
    let next: Tried | null = null;
    for (const part of NEAR_MOST) {
      const found = await tried(setting, base.spreads, part * most);
      if (found && (!next || found.share > next.share)) next = found;
      if (found && found.share >= target) break;
    }
    if (!next) break;
    best = better(next, best);
    if (next.share <= before && round > 0) break;
    base = next;
  }
  if (best.share < target || best === from) return best;
  let [low, high] = [0, best.k];
  const { spreads } = best;
  for (let step = 0; step < STEPS; step += 1) {
    const middle = (low + high) / 2;
    const found = await tried(setting, spreads, middle);
    if (found && found.share >= target) {
      high = middle;
      if (cheaper(found, best)) best = found;
    } else low = middle;
  }
  return best;
}

const better = (a: Tried, b: Tried): Tried => (a.share > b.share ? a : b);

/** Cheaper as measured; where nothing has a price, closer to the plain limits. */
function cheaper(a: Tried, b: Tried): boolean {
  const goal = a.plan.request.goal;
  if (goal === 'closest') return largestMiss(a.plan) < largestMiss(b.plan);
  return priced(a.plan) ? a.plan.mix.costPerLitre < b.plan.mix.costPerLitre : a.k < b.k;
}

/** The wanted share and three standard errors of the count, half way to certainty at most. */
export function targetOf(share: number): number {
  return Math.min(share + 3 * Math.sqrt((share * (1 - share)) / BATCHES), (1 + share) / 2);
}

/** The kit without spoons where there is a scale, without drops where there is a syringe; null where that is the kit itself. */
function exactKit({ dropsPerMillilitre, ...kit }: Kit): Kit | null {
  const scale = kit.scaleStepGrams !== undefined && kit.spoons.length > 0;
  const syringe = kit.syringeMillilitres !== undefined && dropsPerMillilitre !== undefined;
  if (!scale && !syringe) return null;
  const drops = syringe || dropsPerMillilitre === undefined ? {} : { dropsPerMillilitre };
  return { ...kit, ...drops, spoons: scale ? [] : kit.spoons };
}

const priced = ({ mix }: DosePlan): boolean => mix.items.some((item) => item.costPerLitre !== null);

export function largestMiss({ mix }: Pick<DosePlan, 'mix'>): number {
  return mix.elements.reduce(
    (most, { mgPerLitre, aim }) => (aim !== null && aim > 0 ? Math.max(most, Math.abs(mgPerLitre / aim - 1)) : most),
    0,
  );
}

const noFeed = (wanted: number): SureDoses => ({
  status: 'no feed',
  plan: null,
  wanted,
  share: 0,
  sureness: null,
  k: 0,
  extraCostPerLitre: null,
  extraMiss: 0,
  remedies: [],
  sentence: 'No feed from this shelf keeps every limit even when nothing varies; ask why first.',
});
