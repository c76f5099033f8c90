import { gradeOf } from '../feed/grade.js';
import type { Limit, MissableLimit } from '../feed/limits.js';
import type { FeedRequest } from '../feed/request.js';
import type { FeedHeader } from '../feed/results.js';
import { type Action, canLimits, canTable, kept, margins } from './can-limits.js';
import type { Judged } from './judge.js';
import { after, linearisationFor, nothing } from './remedy-action.js';

/** Who else may take a can that these plants cannot have. */
export interface OtherUse {
  request: FeedRequest;
  /** Plants that stand outdoors and want no feed of their own: only what hurts counts. */
  outdoors: boolean;
}

/** A can given to others, thinned. */
export interface Elsewhere {
  feed: FeedHeader;
  outdoors: boolean;
  /** Litres of water to each litre of the can; 0: as it is. */
  waterEach: number;
  /** Share of the cans that keep every limit of harm and need of that feed; outdoors, of harm. */
  sure: number;
}

/** As many limits kept as in a can that is given elsewhere at all. */
const SURE = 0.9;
/** Parts of water to one of the can: what a jug is filled up to. */
const THINNED = [0, 0.5, 1, 2, 3, 4, 7, 9];

/** Others that can have this can, each as little thinned as is sure; in the order given. */
export function elsewhere(
  { cans, weighed: { batch } }: Judged,
  own: FeedRequest,
  uses: readonly OtherUse[],
): Elsewhere[] {
  return uses.flatMap(({ request: theirs, outdoors }): Elsewhere[] => {
    // their limits, on what is in this can
    const request: FeedRequest = { ...theirs, shelf: own.shelf, waters: own.waters };
    for (const waterEach of THINNED) {
      const sure = shareKept(waterEach);
      if (sure >= SURE) return [{ feed: theirs.header, outdoors, waterEach, sure }];
    }
    return [];

    function shareKept(waterEach: number): number {
      const main = request.waters.map((_, i) => (i === 0 ? 1 : 0));
      const actions = cans.map(
        ({ litres }): Action => ({ ...nothing(request), water: main.map((one) => one * waterEach * litres) }),
      );
      const at = linearisationFor(after(cans[0]!, actions[0]!, batch, request), request);
      const limits = canLimits(request, at, batch).filter(({ limit }) => isHeld(limit, request, outdoors));
      const table = canTable(limits, cans);
      return table.filter((of, c) => kept(margins(limits, actions[c]!, [of])[0]!)).length / cans.length;
    }
  });
}

function isHeld(limit: Limit, { programme }: FeedRequest, outdoors: boolean): boolean {
  const grade = gradeOf(limit as MissableLimit, programme);
  return grade === 'harm' || (grade === 'need' && !outdoors);
}
