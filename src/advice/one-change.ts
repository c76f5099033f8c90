import type { Kit } from '../catalog/bench-types.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Measure, measuresWithin } from '../dose/measure.js';
import { toolsOf } from '../dose/tools.js';
import { gradeOf, type Grade } from '../feed/grade.js';
import type { Miss } from '../feed/limits.js';
import { type Limited, missesOf, readLimits } from '../feed/readout.js';
import type { FeedRequest } from '../feed/request.js';
import { fullEc } from '../formulation/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';

/** One dose of a habit, changed. */
export interface OneChange {
  product: ClosedProduct;
  /** g or mL for the whole volume; 0 where it was not in it, or is left out. */
  from: number;
  to: number;
  /** How the kit measures the new dose; null where it is left out. */
  measure: Measure | null;
  /** How far off the limits it is, before and after: see `offOf`. */
  before: number;
  after: number;
}

/** What grades weigh where a change mends one limit and breaks another (judgement): what hurts first, conventions last. */
const WEIGHTS: Readonly<Record<Grade, number>> = { harm: 10, need: 2, custom: 0.5 };
/** No miss counts more than so many times its bound. */
const MOST = 3;
/** Beside the limits, how far elements lie from their aims decides between changes that keep the same. */
const AIMS = 0.02;

/** How far amounts are off the limits of a feed: misses as shares of their bounds, by grade, and a little for what lies far from its aim. */
export function offOf(read: Limited, { programme }: Pick<FeedRequest, 'programme'>): number {
  const misses = missesOf(read).reduce((sum, miss) => sum + WEIGHTS[gradeOf(miss.limit, programme)] * shareOf(miss), 0);
  const aims = read.elements.filter(({ aim }) => aim !== null && aim > 0);
  const away = aims.reduce((sum, { aim, mgPerLitre }) => sum + Math.min(1, Math.abs(mgPerLitre / aim! - 1)), 0);
  return misses + (aims.length === 0 ? 0 : (AIMS * away) / aims.length);
}

const shareOf = ({ value, bound }: Miss): number => (bound === 0 ? 1 : Math.min(MOST, Math.abs(value / bound - 1)));

/** A dose of what is in it may go so many times up. */
const TIMES = 4;
/** Less of an improvement is none. */
const HELPS = 0.01;
/** Changes that are as good within this share: the smallest of them is told. */
const ALIKE = 1e-9;

export interface Habit {
  /** g or mL for the whole volume, by the place of the product on the shelf of the request. */
  amounts: readonly number[];
  litres: number;
}

/**
 * The change of one dose that helps a habit most, found by trying every measure of the kit for every product of the request's shelf, from
 * nothing up to four times what it is (of what is not in it: up to twice what brings an element to its aim, and no more than its label allows); EC by the full
 * model. Null where none brings it nearer to its limits.
 * @param request the feed it is judged by, with all products that may change on its shelf
 */
export function oneChange(
  { amounts, litres }: Habit,
  request: FeedRequest,
  kit: Kit,
  known: readonly PowderKnown[] = [],
): OneChange | null {
  const waters = request.waters.map(() => 1 / request.waters.length);
  const at = (all: readonly number[]): number => {
    const perLitre = { products: all.map((x) => x / litres), waters };
    return offOf(readLimits(perLitre, request, fullEc(perLitre, request)), request);
  };
  const before = at(amounts);
  let best: OneChange | null = null;
  request.shelf.forEach((product, i) => {
    for (const measure of dosesOf(product, amounts[i]!, { litres, request, kit, known })) {
      const to = measure?.amount ?? 0;
      const from = amounts[i]!;
      if (to === from) continue;
      const change = { product, from, to, measure, before, after: at(amounts.with(i, to)) };
      if (change.after < before - HELPS && (best === null || isBetter(change, best))) best = change;
    }
  });
  return best;
}

/** Nearer to the limits; of two alike the smaller step, counted in doses. */
function isBetter(change: OneChange, best: OneChange): boolean {
  if (Math.abs(change.after - best.after) > ALIKE) return change.after < best.after;
  return stepOf(change) < stepOf(best);
}

const stepOf = ({ from, to }: OneChange): number => Math.abs(to - from) / Math.max(from, to);

/** Every dose of a product that the kit measures; null stands for leaving it out. */
export function dosesOf(
  product: ClosedProduct,
  now: number,
  { litres, request, kit, known }: { litres: number; request: FeedRequest; kit: Kit; known: readonly PowderKnown[] },
): (Measure | null)[] {
  const most = now > 0 ? TIMES * now : mostOf(product, litres, request);
  const measures = measuresWithin(product, toolsOf(kit), 0, most, known);
  return [...(now > 0 ? [null] : []), ...thinned(measures)];
}

/** Scales have thousands of steps: beyond so many doses every second, third … will do. */
const MOST_DOSES = 120;
const thinned = (measures: readonly Measure[]): Measure[] => {
  const every = Math.ceil(measures.length / MOST_DOSES);
  return measures.filter((_, i) => i % every === 0);
};

/** Of what is not in it: twice what brings the first of its elements to its aim, and no more than its label allows. */
function mostOf({ composition, maxRate }: ClosedProduct, litres: number, { programme }: FeedRequest): number {
  const most = (Object.entries(programme.bands) as [Nutrient, { aim?: number }][]).flatMap(([nutrient, { aim }]) => {
    const brings = composition.content[nutrient].stated ?? composition.content[nutrient].low;
    return aim !== undefined && aim > 0 && brings > 0 ? [(aim / brings) * litres] : [];
  });
  const rate = maxRate === undefined ? Number.POSITIVE_INFINITY : maxRate * litres;
  return most.length === 0 ? 0 : Math.min(rate, 2 * Math.min(...most));
}
