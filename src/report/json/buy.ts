import type * as z from 'zod';
import type { SubstitutesResult } from '../../purchase/substitutes-types.js';
import type { PurchaseResult } from '../../purchase/types.js';
import type { buyShape, substitutesShape } from '../buy-shapes.js';
import { cautionsJson, mixJson } from './mix.js';

/** What `buy --json` prints. */
export const buyJson = (result: PurchaseResult): z.infer<typeof buyShape> => ({
  ...result,
  options: result.options.map((option) => ({ ...option, feeds: option.feeds.map(mixJson) })),
  cautions: cautionsJson(result.cautions),
});

/** What `buy --instead-of ID --json` prints. */
export const substitutesJson = (result: SubstitutesResult): z.infer<typeof substitutesShape> => ({
  ...result,
  cautions: cautionsJson(result.cautions),
});
