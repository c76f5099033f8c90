import type * as z from 'zod';
import type { BlendResult } from '../../feed/results.js';
import type { blendShape } from '../schemas.js';
import { cautionsJson, mixJson } from './mix.js';

/** What `blend --json` prints. */
export function blendJson(result: BlendResult): z.infer<typeof blendShape> {
  const { nearest, ...rest } = result;
  return {
    ...mixJson(rest),
    cautions: cautionsJson(result.cautions),
    ...(nearest === undefined ? {} : { nearest: nearest && mixJson(nearest) }),
  };
}
