import type { Kit } from '../catalog/bench-types.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { FeedRequest } from '../feed/request.js';
import type { Optimal } from '../../solver/index.js';
import { movedBySteps, type Room } from './by-steps.js';
import { jugMark } from './marks.js';
import { plainRemedies } from './plain-remedies.js';
import { canLimits } from './can-limits.js';
import { type Ground, groundOf } from './ground.js';
import type { Judged } from './judge.js';
import { middleLitres, type PossibleCan, quantiles } from './posterior.js';
import { GOOD, LEAST_KEPT, proposals } from './proposals.js';
import { after, type Level, linearisationFor, nothing, overCap } from './remedy-action.js';
import { leastLitres } from './rescue-program.js';
import { stockLeft } from './stock-left.js';
import { type Candidate, standingOf, weigher } from './weigh-remedy.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import type { Limit } from '../feed/limits.js';

export interface RescueOptions {
  /** Litres that the can holds to the brim. */
  capacityLitres: number;
  /** False where nobody said so, and the batch is taken for it. */
  brimKnown?: boolean;
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
  /** The program's own remedy that keeps every limit in the most cans; null where none was asked for, or there is none. */
  optimum: { sure: number; verdict: Optimal } | null;
  level: Level;
}

const ROUNDS = 2;
/** So many proposals, the best first, are moved by steps. */
const STARTS = 2;

async function choose(
  judged: Judged,
  request: FeedRequest,
  { capacityLitres, brimKnown = true, kit }: RescueOptions,
  { moved, allowances }: Ground,
  linearisation: EcLinearisation | null,
): Promise<Best> {
  const { batch } = judged.weighed;
  const limits = canLimits(request, linearisation, batch, moved);
  const likeliest = likeliestCause(judged.cans);
  const own = judged.cans.filter((can) => can.cause === likeliest);
  const can = middle(own);
  // what is told goes by the likeliest can, or the fuller one in the middle; no can of a known brim holds more
  const fuller = Math.max(can.litres, middleLitres(judged.cans));
  const standsAt = brimKnown ? Math.min(capacityLitres, fuller) : fuller;
  const left = stockLeft(request, batch, own);
  const room: Room = {
    litres: standsAt,
    mark: jugMark(batch, kit),
    capacityLitres: Math.max(capacityLitres, standsAt),
    leastLitres: leastLitres(batch, standsAt),
    leastKept: LEAST_KEPT,
    left,
  };
  const weigh = weigher({ judged, request, kit, limits, allowances, can, level: room });
  const alone = weigh(nothing(request), null);
  const ended = (best: Candidate, optimum: Candidate | null): Best => ({
    ...best,
    asIs: alone.sure,
    optimum: optimum?.verdict ? { sure: Math.max(optimum.sure, best.sure), verdict: optimum.verdict } : null,
    level: room,
    final: after(can, best.action, batch, request),
  });
  if (alone.sure >= GOOD || standingOf(judged) === 'as planned') return ended(alone, null);
  const sets = own.length > ALONE * judged.cans.length ? [judged.cans] : [judged.cans, own];
  const asked = { request, batch, limits, capacityLitres: 2 * room.capacityLitres, standsAt, left };
  const met = await proposals(asked, sets, kit, weigh, room);
  const plain: Candidate[] = [];
  let least = alone.worth;
  for (const { action, asPlanned } of plainRemedies(can, request, batch, kit, room)) {
    const bonus = AS_PLANNED * asPlanned;
    const weighed = weigh(action, null, least - bonus);
    if (weighed.worth + bonus <= least) continue;
    least = weighed.worth + bonus;
    plain.push({ ...weighed, worth: least });
  }
  const stepped = [...met, ...plain]
    .sort((a, b) => b.worth - a.worth)
    .slice(0, STARTS)
    .map((from) => movedBySteps(from, weigh, request, batch, kit, room));
  const optimum = [...met, ...stepped].filter(({ verdict }) => verdict !== null).sort((a, b) => b.sure - a.sure)[0];
  const best = [...plain, ...stepped].reduce((one, other) => (other.worth > one.worth ? other : one), alone);
  return ended(best, optimum ?? null);
}

/** What it is worth, in shares of cans saved, that a can is then the one that was planned: nothing new to trust. */
const AS_PLANNED = 0.05;
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
