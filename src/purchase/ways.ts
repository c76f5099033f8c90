import type { Row } from '../../solver/index.js';
import type { PurchaseAnswer, PurchaseSettled } from '../feed/proof.js';
import { factorIn, type Held, heldAt, heldNear, noNearer } from './held.js';
import { boughtColumn, type Joint, jointProgram } from './program.js';
import { type Found, isOver, type Search, search } from './search.js';
import type { PurchaseOptions, PurchaseRequest } from './types.js';

/** A purchase that a search found, and what it was chosen for. */
export interface Chosen {
  way: PurchaseSettled['way'];
  joint: Joint;
  held: Held;
  /** Times the usual widths that its feeds are to be given within. */
  factor: number;
  found: Found;
}

/** A choice; or what stopped the search for it, null where there is none to make. */
export type Choice = Chosen | { found: null; stopped: Extract<Search, { none: false; found: null }> | null };

/**
 * Of the fewest new products the least money: search after search for fewer, until none serves.
 * @param best the cheapest purchase
 */
export async function simplest(best: Chosen, options: PurchaseOptions): Promise<Choice> {
  const { joint } = best;
  let { found } = best;
  let fewer: PurchaseAnswer | null = null;
  for (let now = newProducts(joint, found); now > 0; now = newProducts(joint, found)) {
    const answer = await search(joint, { ...options, byCases: false, rows: [atMostNew(joint, now - 1)] });
    if (answer.found) {
      found = answer.found;
      continue;
    }
    if (!answer.none) return { found: null, stopped: answer };
    fewer = { found: false, none: true, byArithmetic: answer.byArithmetic, engine: answer.engine };
    break;
  }
  return { ...best, way: { kind: 'simplest', products: newProducts(joint, found), fewer }, found };
}

/** How many bought products stand on no shelf yet. */
export const newProducts = ({ pool }: Joint, { counts }: Pick<Found, 'counts'>): number =>
  pool.filter(({ isOnShelf }, i) => !isOnShelf && counts[i]! > 0).length;

function atMostNew(joint: Joint, most: number): Row {
  const terms = Object.fromEntries(
    joint.pool.flatMap(({ isOnShelf }, i) =>
      !isOnShelf && joint.most[i]! > 0 ? [[boughtColumn(joint, i), 1] as const] : [],
    ),
  );
  return { id: 'fewest', upper: most, terms };
}

/** So many times the money of the cheapest may go into nearer feeds. */
const TIMES = 2;
/** A sum of prices without what rounding leaves in its last places. */
const inCents = (money: number): number => Math.round(money * 100) / 100;
/** Widths that differ by less are the same to a plant. */
const NOTICED = 0.97;
/** Halvings of the way between the nearest there is and the cheapest. */
const STEPS = 3;

/** The nearest that twice the money of the cheapest buys, and of that the cheapest. */
export async function nearest(request: PurchaseRequest, best: Chosen, options: PurchaseOptions): Promise<Choice> {
  const least = await heldNear(request, 'least', options);
  if (least === null) return { found: null, stopped: { found: null, none: false, stopped: { by: 'time' } } };
  const spent = best.found.counts.reduce((sum, n, i) => sum + n * (best.joint.pool[i]!.offer?.price ?? 0), 0);
  const mostMoney = Math.min(request.budget ?? Number.POSITIVE_INFINITY, inCents(TIMES * spent));
  const near = factorIn(best.held.near);
  if (near === null || !(spent > 0)) return { found: null, stopped: null };
  let low = Math.min(...least.near.flatMap((asked) => (asked ? [asked.factor] : [])));
  let high = Math.min(...best.held.near.flatMap((asked) => (asked ? [asked.factor] : [])));
  let choice: Chosen | null = null;
  for (let step = 0; step <= STEPS && low < NOTICED * high && !isOver(options); step += 1) {
    const factor = step === 0 ? low : Math.sqrt(low * high);
    const held = heldAt(request, noNearer(least.near, factor));
    const joint = jointProgram({ ...held.request, budget: mostMoney });
    const answer = await search(joint, { ...options, byCases: false });
    if (!answer.found) {
      low = factor;
      continue;
    }
    high = factor;
    choice = { way: { kind: 'nearest', mostMoney }, joint, held, factor, found: answer.found };
    if (step === 0) break;
  }
  return choice ?? { found: null, stopped: null };
}
