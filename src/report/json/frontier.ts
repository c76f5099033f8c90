import type * as z from 'zod';
import type { FrontierResult } from '../../feed/results.js';
import type { frontierShape } from '../schemas.js';
import { proofJson } from './proof.js';
import { frontierNotes } from '../says/blend.js';

/** What `blend --frontier --json` prints. */
export function frontierJson(result: FrontierResult): z.infer<typeof frontierShape> {
  const { status, feed, costUnit, proof } = result;
  return {
    schema: 'velamen.frontier/2',
    feed,
    costUnit,
    notes: frontierNotes(result),
    status:
      status === 'made'
        ? 'optimal'
        : status === 'cannot'
          ? 'infeasible'
          : proof.unfinished
            ? 'unfinished'
            : 'uncertified',
    points: status === 'made' ? result.points : [],
    proof: proofJson(proof),
  };
}
