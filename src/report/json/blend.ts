import type * as z from 'zod';
import type { BlendResult, NearestMix } from '../../feed/results.js';
import type { blendShape } from '../schemas.js';
import { cautionsJson, mixAlone } from './mix.js';
import { proofJson } from './proof.js';

/** What `blend --json` prints. A feed that cannot be made has no items, only what stands in its way and the nearest there is. */
export function blendJson(result: BlendResult): z.infer<typeof blendShape> {
  const { goal, feed, unknowns, notes, cautions } = result;
  const schema = 'velamen.blend/2' as const;
  const told = { unknowns, notes, cautions: cautionsJson(cautions), proof: proofJson(result.proof) };
  switch (result.status) {
    case 'made': {
      const { proof, prices } = result;
      const status = proof.verdict === 'optimal' ? 'optimal' : 'uncertified';
      return { schema, status, goal, feed, ...mixAlone(result), ...told, ...(prices ? { prices } : {}) };
    }
    case 'cannot': {
      const { absent, conflict, irreducible, farkas, relaxations } = result;
      const why = { absent, conflict, irreducible, farkas, relaxations };
      return { schema, status: 'infeasible', goal, feed, ...told, ...why, nearest: nearestJson(result.nearest) };
    }
    case 'open': {
      const { relaxations } = result;
      return {
        schema,
        status: 'uncertified',
        goal,
        feed,
        ...told,
        relaxations,
        nearest: nearestJson(result.nearest),
      };
    }
  }
}

const nearestJson = (nearest: NearestMix | null) => nearest && { ...mixAlone(nearest), misses: nearest.misses };
