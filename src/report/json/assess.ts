import type * as z from 'zod';
import type { AdviceResult } from '../../advice/types.js';
import type { AssessResult } from '../../feed/results.js';
import type { adviceShape } from '../advice-shapes.js';
import type { assessShape } from '../schemas.js';
import { cautionsJson, mixJson } from './mix.js';

/** What `assess --json` prints of a recipe. */
export const assessJson = (result: AssessResult): z.infer<typeof assessShape> => ({
  ...mixJson(result),
  cautions: cautionsJson(result.cautions),
});

/** What `assess --json` prints of advice in words. */
export const adviceJson = (result: AdviceResult): z.infer<typeof adviceShape> => ({
  ...result,
  cautions: cautionsJson(result.cautions),
});
