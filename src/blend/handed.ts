import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { Solubility } from '../catalog/solubility.js';
import { judgedCan, type JudgedCan } from '../chance/sure-figures.js';
import { shareOf } from '../chance/sure.js';
import type { PenInHand } from '../dose/by-pen-types.js';
import type { Measure } from '../dose/measure.js';
import { plannerByPen } from '../dose/plan-by-pen.js';
import { planKept, planOnce } from '../dose/plan-once.js';
import type { TrialPlan } from '../dose/plan-types.js';
import { gradeOf } from '../feed/grade.js';
import { ironMiss, missesOf, rulesOf } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import type { Mix } from '../feed/results.js';
import type { PowderKnown } from '../label/product.js';

/** What measures a feed, and with how much certainty it is wanted. */
export interface Hands {
  kit: Kit;
  /** Share of cans that are to keep the limits. */
  sure: number;
  known: readonly PowderKnown[];
  solubility?: readonly Solubility[];
  /** A pen that doses are steered by; absent where all go by measure. */
  pen?: PenInHand | undefined;
  /** What can be taken of items that are kept in a bottle of their own, by id. */
  bottles?: ReadonlyMap<string, readonly Measure[]> | undefined;
}

/** A mix as these hands make it. */
export interface Handed {
  /** What was to be measured out. */
  amounts: Amounts;
  plan: TrialPlan;
  judged: JudgedCan;
  /** Share of cans that keep every limit that the plan keeps or has to keep. */
  share: number;
}

/** Cans that a share is counted on. */
export const CANS = 4000;
const SEED = 1;

/** What doses are held within: one after the other, until the kit can keep one. */
export interface Rungs {
  /** Near the aims as well; where doses keep none of them, those that are least outside the first, as long as its limits hold. */
  near: readonly FeedRequest[];
  /** The limits, if need be with the least violation of the last. */
  far: readonly [FeedRequest, ...FeedRequest[]];
}

/**
 * A mix measured out.
 * @param request the feed itself, by whose limits cans are counted
 */
export async function handed(
  request: FeedRequest,
  { near, far }: Rungs,
  amounts: Amounts,
  { kit, known, pen, bottles }: Hands,
): Promise<Handed> {
  const options = { known, steered: bottles };
  const all = [...near, ...far];
  const held =
    (pen ? await firstKept(all, plannerByPen(request, amounts, kit, pen, options)) : null) ??
    (await firstKept(near, (limits) => planKept(limits, amounts, kit, options))) ??
    (await firstKept(near.slice(0, 1), (limits) => planOnce(limits, amounts, kit, options))) ??
    (await firstKept(far.slice(0, -1), (limits) => planKept(limits, amounts, kit, options)));
  const plan = held ? asOfPlan(held) : await planOnce(far.at(-1)!, amounts, kit, options);
  const judged = judgedCan(plan, counted(request, plan), known);
  return { amounts, plan, judged, share: shareOf(judged, CANS, SEED) };
}

/** A plan whose proof speaks of all that it was held to. */
const asOfPlan = (plan: TrialPlan): TrialPlan =>
  plan.proof.by === 'the pen' ? plan : { ...plan, proof: plan.proof.ofPlan() };

/** The first plan that keeps the limits it is for. */
async function firstKept(
  rungs: readonly FeedRequest[],
  planFor: (limits: FeedRequest) => Promise<TrialPlan | null>,
): Promise<TrialPlan | null> {
  for (const limits of rungs) {
    const plan = await planFor(limits);
    if (plan?.status === 'kept') return plan;
  }
  return null;
}

/**
 * The feed without the conventions that the plan itself does not keep: they are told, and no can is counted out for them. The plan may have
 * been made without the rules that are aimed at, so they are looked up on its amounts.
 */
export function counted(request: FeedRequest, { mix, amounts }: Pick<TrialPlan, 'mix' | 'amounts'>): FeedRequest {
  const { programme } = request;
  const bands = { ...programme.bands };
  for (const { element, low } of mix.elements) {
    const band = bands[element];
    if (band?.min === undefined || low >= band.min * (1 - KEPT)) continue;
    const limit = { kind: 'nutrient', nutrient: element, end: 'least', bound: band.min, owner: 'programme' } as const;
    if (gradeOf(limit, programme) !== 'custom') continue;
    const { min: _, ...rest } = band;
    bands[element] = rest;
  }
  const missed = new Set(
    rulesOf(amounts, request)
      .filter(({ holds, rule }) => rule.aimed && !holds)
      .map(({ rule }) => rule.text),
  );
  const rules = programme.rules.filter((rule) => !(rule.kind === 'linear' && rule.aimed && missed.has(rule.text)));
  return { ...request, programme: { ...programme, bands, rules } };
}

/** As everywhere. */
const KEPT = 1e-6;

/** Misses of a mix by their grade: those that only convention stands behind, and the others. */
export function missesByGrade(
  mix: Pick<Mix, 'elements' | 'rules' | 'ec' | 'iron'>,
  { programme }: Pick<FeedRequest, 'programme'>,
): { custom: ReturnType<typeof missesOf>; graver: ReturnType<typeof missesOf> } {
  const misses = [...missesOf(mix), ...ironMiss(mix)];
  const isCustom = ({ limit }: (typeof misses)[number]): boolean => gradeOf(limit, programme) === 'custom';
  return { custom: misses.filter(isCustom), graver: misses.filter((miss) => !isCustom(miss)) };
}
