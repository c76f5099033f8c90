import { solve } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import { measuresWithin } from '../dose/measure.js';
import { type Tool, toolsOf } from '../dose/tools.js';
import type { FeedRequest } from '../feed/request.js';
import type { Batch } from './batch.js';
import type { Action, CanLimit } from './can-limits.js';
import { doseSpread } from './hands.js';
import type { Room } from './by-steps.js';
import type { PossibleCan } from './posterior.js';
import { actionOf, byHand, tooLittle } from './remedy-action.js';
import { DEPTH, deepestProgram, type RescueAsked, rescueProgram } from './rescue-program.js';
import type { Candidate, Weigh } from './weigh-remedy.js';
import { hypot } from '../units/elementary.js';

/**
 * Remedies worth weighing, each the least wasteful for its own degree of caution: how unlikely a can each limit still allows for; and, where
 * those are not sure enough, how deep inside all limits the middle can stands.
 * @param sets all cans; and those of the likeliest cause alone
 */
export async function proposals(
  asked: Omit<RescueAsked, 'cans' | 'sure'>,
  sets: readonly (readonly PossibleCan[])[],
  kit: Kit,
  weigh: Weigh,
  room: Room,
): Promise<Candidate[]> {
  const met: Candidate[] = [];
  const enough = (): boolean => met.some((candidate) => candidate.sure >= GOOD);
  for (const cans of sets) {
    let degrees = 0;
    for (const sure of DEGREES) {
      if (degrees === COMPARED || enough()) break;
      const found = await proposed({ ...asked, cans, sure }, kit, weigh, room);
      if (found.length > 0) degrees += 1;
      met.push(...found);
    }
  }
  if (enough()) return met;
  const { request, batch, limits } = asked;
  for (const cans of sets) {
    const middle = { ...asked, cans, sure: 0.5 };
    const spreads = limitSpreads(limits, cans, batch, request, kit);
    const deepest = await solve(deepestProgram(middle, spreads));
    if (deepest.verdict !== 'optimal') continue;
    for (const [part, most] of DEPTHS) {
      const depth = Math.min(most, part * deepest.x[DEPTH]!);
      const inside = spreads.map((spread) => depth * spread);
      met.push(...(await proposed({ ...middle, inside }, kit, weigh, room)));
    }
  }
  return met;
}

/** A remedy that keeps every limit in so many of the cans needs no better one. */
export const GOOD = 0.97;
/** Less kept than this is no rescue: mixing anew is simpler. */
export const LEAST_KEPT = 0.25;
/** How unlikely a can each candidate still allows for, and how many of those that can be met are compared. */
const DEGREES = [0.985, 0.96, 0.92, 0.86, 0.78, 0.7, 0.62, 0.55, 0.5];
const COMPARED = 2;
/** Standard deviation of every limit's sum over the cans, and what measuring each planned item once more would add to it. */
function limitSpreads(
  limits: readonly CanLimit[],
  cans: readonly PossibleCan[],
  batch: Batch,
  request: FeedRequest,
  kit: Kit,
): number[] {
  const planned = request.shelf.map(
    (product) => batch.items.find((item) => item.product.id === product.id)?.planned ?? 0,
  );
  const sd = doseSpread(request, kit)(planned);
  return limits.map((limit) => {
    const of = cans.map(limit.ofCan);
    const mean = of.reduce((a, b) => a + b, 0) / of.length;
    const variance = of.reduce((sum, x) => sum + (x - mean) ** 2, 0) / of.length;
    return hypot(Math.sqrt(variance), ...limit.products.map((x, i) => x * sd[i]!));
  });
}

/** Parts of the greatest depth that is possible, and no deeper than so many spreads. */
const DEPTHS = [
  [0.95, 2.3],
  [0.6, 1.6],
] as const;

/** The least wasteful remedies of one degree of caution, by hand; what is too little to measure is left out, and the rest worked out anew. */
async function proposed(asked: RescueAsked, kit: Kit, weigh: Weigh, room: Room): Promise<Candidate[]> {
  const found: Candidate[] = [];
  let barred: ReadonlySet<number> = new Set();
  const tools = toolsOf(kit);
  for (let round = 0; round < BARRINGS; round += 1) {
    const verdict = await solve(rescueProgram({ ...asked, barred }));
    if (verdict.verdict !== 'optimal') break;
    const exact = actionOf(verdict, asked.request);
    for (const action of byHand(exact, asked.request, kit, room)) {
      const fitting = withinStock(action, asked, tools);
      if (fitting.keep >= LEAST_KEPT) found.push(weigh(fitting, verdict));
    }
    const tiny = tooLittle(exact, asked.request, kit);
    if (tiny.length === 0) break;
    barred = new Set([...barred, ...tiny]);
  }
  return found;
}
const BARRINGS = 3;

/** Rounded up, a dose may be more than is left: the largest measure of what is left then. */
function withinStock(action: Action, { request, left }: RescueAsked, tools: readonly Tool[]): Action {
  const add = action.add.map((x, i) => {
    const most = left?.[i] ?? Number.POSITIVE_INFINITY;
    if (x <= most) return x;
    return measuresWithin(request.shelf[i]!, tools, most / 2, most).at(-1)?.amount ?? 0;
  });
  return { ...action, add };
}
