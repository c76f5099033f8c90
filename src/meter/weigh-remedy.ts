import type { Optimal } from '../../solver/index.js';
import type { Kit } from '../catalog/bench-types.js';
import type { FeedRequest } from '../feed/request.js';
import { type Action, type CanLimit, canTable } from './can-limits.js';
import { type Kept, keptCounter } from './count-kept.js';
import { doseSpread, drawHands } from './hands.js';
import { isMisfilled, plannedLitres } from './batch.js';
import type { Judged } from './judge.js';
import type { PossibleCan } from './posterior.js';
import { doesNothing, jugsOf, type Level } from './remedy-action.js';
import { wasteCounter } from './rescue-program.js';

/** A remedy weighed against every can that would show these readings. */
export interface Candidate {
  action: Action;
  /** Share of the cans that keep every limit after it, hands being as they are. */
  sure: number;
  /** The same, each limit kept as well as nine of ten right batches keep it. */
  asRight: number;
  /** `sure` and a part of `asRight`, less the effort. */
  worth: number;
  /** Of the program that it came from; null for what no program proposed. */
  verdict: Optimal | null;
  limits: readonly CanLimit[];
  allowances: readonly number[];
  /** The likeliest can. */
  can: PossibleCan;
}

export interface Weighing {
  judged: Judged;
  request: FeedRequest;
  kit: Kit;
  limits: readonly CanLimit[];
  allowances: readonly number[];
  can: PossibleCan;
  /** Where the can stands. */
  level: Level;
}

/**
 * What anything at all to do weighs, in shares of cans saved: a can that reads as planned is left alone, and one that
 * may be wrong unless a remedy saves 10 more of 100 that read like it; judgement.
 */
const TROUBLE = { 'as planned': 1, doubtful: 0.1, off: 0.05, unexplained: 0.05 } as const;
/** Each dose; each of what was not in the plan, one more jar to open. */
const DOSE = 0.02;
const STRANGER = 0.03;
/** Pouring some off, into a second jug, filling up. */
const POURING = 0.02;
const SPLITTING = 0.03;
const FILLING = 0.01;
/** Throwing the whole can away. */
const WASTE = 0.3;
/** Where hardly any can keeps every limit to the letter, keeping them as well as right batches do decides. */
const AS_RIGHT = 0.2;

/**
 * How the can stands: `doubtful` is within tolerance, but a mistake is likelier than none; one measured to hold more or less water than the doses
 * were for is off, though it reads as these doses do in that water.
 */
export function standingOf({
  judgement: { verdict, asPlanned },
  weighed: { batch, readings, distance },
}: Judged): keyof typeof TROUBLE {
  if (verdict !== 'within') return verdict === 'off' ? 'off' : 'unexplained';
  if (isMisfilled(batch)) return 'off';
  return asPlanned < LIKELIER && distance > readings.length * NEARER ? 'doubtful' : 'as planned';
}

const LIKELIER = 0.5;
/** Squared standard deviations for each reading: half of all right batches read as near the plan, or nearer. */
const NEARER = 0.45;

/** A scale for remedies of one can. */
export function weigher({ judged, request, kit, limits, allowances, can, level }: Weighing): Weigh {
  const { batch } = judged.weighed;
  const table = canTable(limits, judged.cans);
  const hands = drawHands(table.length, request);
  const spreadOf = doseSpread(request, kit);
  const countKept = keptCounter(
    limits,
    table,
    allowances,
    judged.cans.map(({ litres }) => litres),
  );
  const isPlanned = request.shelf.map(({ id }) => batch.items.some(({ product }) => product.id === id));
  const wasteOf = wasteCounter(request, batch);
  const trouble = TROUBLE[standingOf(judged)];
  return (action, verdict, over = Number.NEGATIVE_INFINITY) => {
    const idle = doesNothing(action);
    const doses = action.add.reduce((sum, x, i) => sum + (x > 0 ? DOSE + (isPlanned[i] ? 0 : STRANGER) : 0), 0);
    const handling =
      (action.keep < 1 ? POURING : 0) +
      (jugsOf(action, level) > 1 ? SPLITTING : 0) +
      (action.water.some((x) => x > 0) ? FILLING : 0);
    const waste = wasteOf(action, can.litres) / plannedLitres(batch);
    const effort = idle ? 0 : trouble + doses + handling + WASTE * waste;
    const worthOf = ({ strictly, allowed }: Kept): number =>
      strictly / table.length + AS_RIGHT * (allowed / table.length) - effort;
    const matters = (most: Kept): boolean => worthOf(most) > over;
    const kept = countKept(action, spreadOf(action.add), idle ? null : hands, matters);
    const [sure, asRight] = [kept.strictly / table.length, kept.allowed / table.length];
    return {
      action,
      sure,
      asRight,
      worth: worthOf(kept),
      verdict,
      limits,
      allowances,
      can,
    };
  };
}

/**
 * @param over what it must be worth more than to matter: one that is not is counted no further, and is worth no more than that whatever its
 * other figures say
 */
export type Weigh = (action: Action, verdict: Optimal | null, over?: number) => Candidate;
