import type { PowderKnown } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { conductivity } from '../chemistry/conductivity.js';
import { ionsOfMix, usualIons } from '../can/ec.js';
import type { FeedRequest } from '../feed/request.js';
import { type Batches, drawBatches, endsIn, figureIn, type Moments, momentsOf } from './batches.js';
import { NINETY } from './deviates.js';
import type { DosePlan } from '../dose/plan-types.js';
import { MODEL_SPREAD } from './jar-conductivity.js';
import { type JudgedCan, type JudgedLimit, judgedCan } from './sure-figures.js';
import { nutrientFigure, nutrientsOf, SOURCES, type Source, type VaryingCan } from './varying.js';
import type { MissableLimit } from '../feed/limits.js';
import { hypot } from '../units/elementary.js';

/** How far doses can be trusted when hands, jars and water vary as they do. */
export interface Sureness {
  /** Share of batches that keep every band, rule and cap, whatever the labels leave open; 0…1. */
  share: number;
  /** 90 % intervals, mg/L; they also span what labels leave open. */
  elements: { element: Nutrient; low: number; high: number }[];
  /** 90 % interval of what a true pen shows at 25 °C, mS/cm: the model's own error is in it. */
  ec: { low: number; high: number };
  /** Limits that some batches violate, the most often violated first. */
  risks: Risk[];
  /** Share of batches that keep everything if this one source did not vary, the most telling first. */
  sources: { source: Source; shareWithout: number }[];
  batches: number;
  seed: number;
}

/** A limit that a share of batches violates. */
export interface Risk {
  limit: MissableLimit;
  share: number;
}

export interface SureOptions {
  /** Default 4000: the share is then within one or two of a hundred. */
  batches?: number;
  seed?: number;
  /** Products whose bulk densities stand in where the shelf knows none; default: the market of the request. */
  known?: readonly PowderKnown[] | undefined;
  /** False: only the shares, not what each source does. */
  sources?: boolean;
}

/**
 * Carries the spreads of spoons, drops, syringe marks, scale, bulk density, labels and water through a plan. The share of batches is
 * counted in a seeded simulation; the intervals follow from means and variances. Doses by one tool share the habit of one pair of hands;
 * all else is independent and normal.
 * @param request the feed as planned, labels closed; by default that of the plan
 */
export function sureness(
  plan: DosePlan,
  request: FeedRequest = plan.request,
  { batches: count = 4000, seed = 1, known = request.market ?? [], sources = true }: SureOptions = {},
): Sureness {
  const { can, ec, limits } = judgedCan(plan, request, known);
  const drawn = drawBatches(can, count, seed);
  const { kept, violated } = judge(limits, drawn);
  return {
    share: kept / count,
    elements: elementsOf(can),
    ec: ecInterval(momentsOf(can, ec), plan, request),
    risks: limits
      .map(({ limit }, r) => ({ limit, share: violated[r]! / count }))
      .filter((risk) => risk.share > 0)
      .sort((a, b) => b.share - a.share),
    sources: sources ? sourcesOf(can, limits, drawn) : [],
    batches: count,
    seed,
  };
}

/** The share of batches alone. */
export function shareOf({ can, limits }: JudgedCan, batches: number, seed: number): number {
  return judge(limits, drawBatches(can, batches, seed)).kept / batches;
}

/** Shares of batches that keep everything in each of several cans, and in all of them at once; what they have in common varies alike. */
export function sharesOf(cans: readonly JudgedCan[], batches: number, seed: number): { each: number[]; all: number } {
  const judged = cans.map(({ can, limits }) => judge(limits, drawBatches(can, batches, seed)));
  let all = 0;
  for (let b = 0; b < batches; b += 1) if (judged.every(({ lost }) => lost[b] === 0)) all += 1;
  return { each: judged.map(({ kept }) => kept / batches), all: all / batches };
}

/** A limit counts as kept within this share of its size, as everywhere. */
const KEPT = 1e-6;

/** How many batches keep everything, and how often each limit is violated. */
function judge(limits: readonly JudgedLimit[], drawn: Batches): { kept: number; violated: number[]; lost: Uint8Array } {
  const lost = new Uint8Array(drawn.count);
  const violated = limits.map(({ figure, limit: { end, bound } }) => {
    const size = Math.abs(bound) || sizeOf(figure, drawn);
    const low = end === 'least' ? bound - KEPT * size : Number.NEGATIVE_INFINITY;
    const high = end === 'most' ? bound + KEPT * size : Number.POSITIVE_INFINITY;
    const { least, most } = endsIn(drawn, figure);
    if (least > low && most < high) return 0;
    const values = figureIn(drawn, figure);
    let times = 0;
    for (let b = 0; b < drawn.count; b += 1) {
      if (values[b]! >= low && values[b]! <= high) continue;
      times += 1;
      lost[b] = 1;
    }
    return times;
  });
  return { kept: drawn.count - lost.reduce((sum, x) => sum + x, 0), violated, lost };
}

/** Size of a figure whose bound is 0: the sum of its parts. */
function sizeOf({ items, waters }: JudgedLimit['figure'], drawn: Batches): number {
  const parts = items.reduce((sum, { mean }, i) => sum + Math.abs(mean) * (drawn.doses[i]![0] ?? 0), 0);
  return waters.reduce((sum, x, j) => sum + Math.abs(x) * (drawn.waters[j]![0] ?? 0), parts);
}

function elementsOf(can: VaryingCan): Sureness['elements'] {
  return nutrientsOf(can).map((element) => {
    const weights = new Map([[element, 1]]);
    const low = momentsOf(can, nutrientFigure(can, weights, 'floor'));
    const high = momentsOf(can, nutrientFigure(can, weights, 'cap'));
    return { element, low: Math.max(0, low.mean - NINETY * low.sd), high: high.mean + NINETY * high.sd };
  });
}

/** Around the likeliest make-up of the labels; the least and the most conductive of nine in ten move its ends. */
function ecInterval({ mean, nominal, sd }: Moments, { amounts }: DosePlan, request: FeedRequest): Sureness['ec'] {
  const made = (['value', 'leastConductive', 'mostConductive'] as const).map((which) =>
    conductivity(ionsOfMix(amounts, request.shelf, request.waters, which, usualIons)),
  );
  const half = NINETY * hypot(sd, MODEL_SPREAD * mean);
  return {
    low: Math.max(0, mean + Math.min(...made) - nominal - half),
    high: mean + Math.max(...made) - nominal + half,
  };
}

function sourcesOf(can: VaryingCan, limits: readonly JudgedLimit[], { count, seed }: Batches): Sureness['sources'] {
  const own = new Set<Source>(['water', ...can.items.flatMap(({ dose }) => dose.map((part) => part.source))]);
  if (can.items.some(({ label }) => label.size > 0)) own.add('labels');
  return SOURCES.filter((source) => own.has(source))
    .map((source) => {
      const { kept } = judge(limits, drawBatches(can, count, seed, new Set([source])));
      return { source, shareWithout: kept / count };
    })
    .sort((a, b) => b.shareWithout - a.shareWithout);
}
