import * as z from 'zod';
import { amount } from './shapes.js';

/** Where a figure of practice comes from, and how well that supports it. */
export const support = z.strictObject({
  refs: z.array(z.string()),
  source: z.string(),
  evidence: z.string(),
  notes: z.string(),
});

/** How each jar is kept. */
export const storageShape = z.array(
  z.strictObject({
    id: z.string(),
    name: z.string(),
    form: z.enum(['powder', 'liquid']),
    draws: z
      .strictObject({ humidity: amount.describe('%, at 30 °C'), by: z.string(), isBlend: z.boolean(), support })
      .nullable(),
    oxidiser: z.strictObject({ codes: z.array(z.string()), may: z.boolean() }).nullable(),
  }),
);
