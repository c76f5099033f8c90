import type * as z from 'zod';
import type { AdviceResult } from '../../advice/types.js';
import type { adviceShape } from '../advice-shapes.js';
import type { AssessResult } from '../../feed/results.js';
import type { assessShape } from '../schemas.js';
import { cautionsJson, mixAlone } from './mix.js';

/** What `assess --json` prints of a recipe. */
export function assessJson(result: AssessResult): z.infer<typeof assessShape> {
  const { status, recipe, volumeLitres, notes, cautions } = result;
  return {
    schema: 'velamen.assess/1',
    status,
    ...mixAlone(result),
    feed: result.status === 'no programme' ? null : result.feed,
    recipe,
    volumeLitres,
    misses: result.status === 'no programme' ? [] : result.misses,
    notes,
    cautions: cautionsJson(cautions),
  };
}

/** What `assess --json` prints of advice in words. */
export const adviceJson = (result: AdviceResult): z.infer<typeof adviceShape> => ({
  ...result,
  cautions: cautionsJson(result.cautions),
});
