import type * as z from 'zod';
import type { ReachLine, ReachResult } from '../../feed/results.js';
import type { reachAllShape, reachShape } from '../schemas.js';
import { proofJson } from './proof.js';

const STATUS = { together: 'optimal', apart: 'infeasible', open: 'uncertified' } as const;

/** What `reach --json` prints. */
export function reachJson(result: ReachResult): z.infer<typeof reachShape> {
  const { status, feed, shelf, elements, notes, proof } = result;
  return {
    schema: 'velamen.reach/1',
    status: STATUS[status],
    feed,
    shelf,
    elements: elements.map(lineJson),
    notes,
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

function lineJson({ element, whole, capsOnly, ...rest }: ReachLine): z.infer<typeof reachShape>['elements'][number] {
  const ends = (of: ReachLine['whole']) => ({ lowest: of?.lowest ?? null, highest: of?.highest ?? null });
  const { min, aim, max, reachable, limitedBy } = rest;
  return { element, ...ends(whole), capsOnly: ends(capsOnly), min, aim, max, reachable, limitedBy };
}
