import type { EcLinearisation } from '../feed/ec-linearisation.js';
import type { FeedRequest } from '../feed/request.js';
import { type Batch, plannedLitres } from './batch.js';
import { NO_FAULT } from './cause.js';
import { type CanLimit, canLimits, canTable, keepsAll, keyOf, type MovedLimits, margins } from './can-limits.js';
import type { Judged } from './judge.js';
import { weigh } from './likelihood.js';
import { type PossibleCan, possibleCans, quantiles } from './posterior.js';
import { after, nothing, linearisationFor } from './remedy-action.js';
import type { Limit } from '../feed/limits.js';

/** What a remedy is chosen under; the same for every reading of a batch. */
export interface Ground {
  /** The EC linearisation at the plan; null without a cap. */
  linearisation: EcLinearisation | null;
  /** Limits that the plan itself violates, moved out to where nine of ten right batches keep them: no can is to be worse than planned. */
  moved: MovedLimits;
  /** These limits. */
  aside: Limit[];
  /** Per limit: how far outside it one right batch in ten may be, so that no can is condemned for what every batch may do. */
  allowances: number[];
}

/** The plan is what the doses were meant for, whatever water they went into. */
export function groundOf({ weighed }: Judged, asked: FeedRequest): Ground {
  const { batch } = weighed;
  const planned = { amounts: batch.items.map((item) => item.planned), litres: plannedLitres(batch), cause: NO_FAULT };
  const linearisation = linearisationFor(after(planned, nothing(asked), batch, asked), asked);
  const violated = violatedBy(planned, batch, asked, linearisation);
  const asMeant = { ...batch, litres: planned.litres };
  const right = possibleCans(weigh(asMeant, [], weighed.pen), RIGHT_CANS, (point) => point.hypothesis.fault === null);
  const moved = new Map(violated.map((limit) => [keyOf(limit), violationOf(limit, right)]));
  const limits = canLimits(asked, linearisation, batch, moved);
  const inside = margins(limits, nothing(asked), canTable(limits, right));
  const allowances = limits.map((_, l) => {
    const [worst] = quantiles(
      inside.map((of) => of[l]!),
      [1 - NINE_OF_TEN],
    );
    return Math.max(0, -worst!);
  });
  return { linearisation, moved, aside: violated.map(({ limit }) => limit), allowances };
}

const RIGHT_CANS = 200;
const NINE_OF_TEN = 0.9;

/** The limits that a can violates. */
function violatedBy(
  can: PossibleCan,
  batch: Batch,
  request: FeedRequest,
  linearisation: EcLinearisation | null,
): CanLimit[] {
  const limits = canLimits(request, linearisation, batch);
  return limits.filter((limit) => !keepsAll([limit], can, nothing(request)));
}

/** By how much per litre nine of ten right cans violate a limit at most. */
function violationOf({ side, ofCan }: CanLimit, right: readonly PossibleCan[]): number {
  const off = right.map((can) => ((side === 'least' ? -1 : 1) * ofCan(can)) / can.litres);
  return Math.max(0, quantiles(off, [NINE_OF_TEN])[0]!);
}
