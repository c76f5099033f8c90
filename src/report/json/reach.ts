import type * as z from 'zod';
import type { ReachLine, ReachResult } from '../../feed/results.js';
import type { reachAllShape, reachShape } from '../reach-shapes.js';
import { proofJson } from './proof.js';
import { limitSays } from '../says/limits.js';
import { decidesSays, limitedBySays, reachNotes } from '../says/reach.js';

const STATUS = { together: 'optimal', apart: 'infeasible', open: 'uncertified' } as const;

/** What `reach --json` prints. */
export function reachJson(result: ReachResult): z.infer<typeof reachShape> {
  const { status, feed, shelf, elements, aimsMiss, farthest, conflict, proof } = result;
  return {
    schema: 'velamen.reach/1',
    status: proof.unfinished ? 'unfinished' : STATUS[status],
    feed,
    shelf,
    elements: elements.map(lineJson),
    aimsMiss,
    farthest,
    conflict: conflict.map(limitSays),
    notes: reachNotes(result),
    proof: proofJson(proof),
  };
}

/** What `reach --all --json` prints. */
export function reachAllJson(results: readonly ReachResult[]): z.infer<typeof reachAllShape> {
  const met = results.every(
    ({ status, elements }) => status === 'together' && elements.every(({ reachable }) => reachable),
  );
  return {
    schema: 'velamen.reach-all/1',
    status: met ? 'reachable' : 'out of reach',
    feeds: results.map(reachJson),
  };
}

function lineJson(line: ReachLine): z.infer<typeof reachShape>['elements'][number] {
  const ends = (of: ReachLine['whole']) => ({ lowest: of?.lowest ?? null, highest: of?.highest ?? null });
  const { element, whole, capsOnly, min, aim, max, reachable, aimReachable } = line;
  const decides = line.decides === null ? null : decidesSays(line.decides);
  const limitedBy = limitedBySays(line);
  return {
    element,
    ...ends(whole),
    capsOnly: ends(capsOnly),
    min,
    aim,
    max,
    reachable,
    aimReachable,
    decides,
    limitedBy,
  };
}
