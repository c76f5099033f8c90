import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import { movedBySteps } from './by-steps.js';
import { canLimits } from './can-limits.js';
import { type Ground, groundOf } from './ground.js';
import type { Judged } from './judge.js';
import { middleLitres, type PossibleCan, quantiles } from './posterior.js';
import { GOOD, LEAST_KEPT, proposals } from './proposals.js';
import { after, nothing, overCap, linearisationFor } from './remedy-action.js';
import { leastLitres } from './rescue-program.js';
import { stockLeft } from './stock-left.js';
import { type Candidate, standingOf, weigher } from './weigh-remedy.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import type { Limit } from '../feed/limits.js';

export interface RescueOptions {
  /** Litres that the can holds to the brim. */
  capacityLitres: number;
  kit: Kit;
}

/**
 * Several remedies are worked out, each proved the least wasteful for its own degree of caution (how unlikely a can it still allows for;
 * all causes, or the likeliest alone). The one that keeps every limit in the most cans, effort counted against it, is moved by steps of the
 * kit while that saves more; it is taken if it is worth more than leaving the can alone. Where the plan stands on its limits
 * does not matter: a remedy aims inside them.
 */
export async function chooseRemedy(
  judged: Judged,
  request: FeedRequest,
  options: RescueOptions,
  ground = groundOf(judged, request),
): Promise<Chosen> {
  let best = await choose(judged, request, options, ground, ground.linearisation);
  // the linearisation must hold where the remedied can stands: touch there and try again where it does not
  for (let round = 0; round < ROUNDS && overCap(best.final, request); round += 1) {
    best = await choose(judged, request, options, ground, linearisationFor(best.final, request));
  }
  return { ...best, request, aside: ground.aside };
}

/** A remedy as chosen, with what it was chosen under. */
export interface Chosen extends Best {
  request: FeedRequest;
  /** Limits that the plan itself violates. */
  aside: readonly Limit[];
}

interface Best extends Candidate {
  /** What a litre of the likeliest can holds after it. */
  final: Amounts;
  /** Share of the cans that keep every limit with nothing done. */
  asIs: number;
}

const ROUNDS = 2;
/** So many proposals, the best first, are moved by steps. */
const STARTS = 3;

async function choose(
  judged: Judged,
  request: FeedRequest,
  { capacityLitres, kit }: RescueOptions,
  { moved, allowances }: Ground,
  linearisation: EcLinearisation | null,
): Promise<Best> {
  const { batch } = judged.weighed;
  const limits = canLimits(request, linearisation, batch, moved);
  const likeliest = likeliestCause(judged.cans);
  const own = judged.cans.filter((can) => can.cause === likeliest);
  const can = middle(own);
  const weigh = weigher({ judged, request, kit, limits, allowances, can });
  const alone = weigh(nothing(request), null);
  const ended = (best: Candidate): Best => ({
    ...best,
    asIs: alone.sure,
    final: after(can, best.action, batch, request),
  });
  if (alone.sure >= GOOD || standingOf(judged) === 'as planned') return ended(alone);
  const sets = own.length > ALONE * judged.cans.length ? [judged.cans] : [judged.cans, own];
  // what is told goes by the likeliest can, and the brim by the fuller of that and the middle one
  const standsAt = Math.min(capacityLitres, Math.max(can.litres, middleLitres(judged.cans)));
  const left = stockLeft(request, batch, own);
  const met = await proposals({ request, batch, limits, capacityLitres, standsAt, left }, sets, kit, weigh);
  const room = {
    litres: standsAt,
    capacityLitres,
    leastLitres: leastLitres(batch, standsAt),
    leastKept: LEAST_KEPT,
    left,
  };
  let best: Candidate = alone;
  for (const from of met.sort((a, b) => b.worth - a.worth).slice(0, STARTS)) {
    const moved = movedBySteps(from, weigh, request, batch, kit, room);
    if (moved.worth > best.worth) best = moved;
  }
  return ended(best);
}

/** A cause with this share of the cans needs no remedy of its own. */
const ALONE = 0.97;

function likeliestCause(cans: readonly PossibleCan[]): string {
  const counts = new Map<string, number>();
  for (const { cause } of cans) counts.set(cause, (counts.get(cause) ?? 0) + 1);
  return [...counts].sort((a, b) => b[1] - a[1])[0]![0];
}

/** The can in the middle of several: the median of each amount. */
function middle(cans: readonly PossibleCan[]): PossibleCan {
  const of = (values: number[]): number => quantiles(values, [0.5])[0]!;
  return {
    amounts: cans[0]!.amounts.map((_, i) => of(cans.map((can) => can.amounts[i]!))),
    litres: of(cans.map((can) => can.litres)),
    ...(cans[0]!.waters === undefined ? {} : { waters: cans[0]!.waters }),
    cause: cans[0]!.cause,
  };
}
