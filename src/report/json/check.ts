import type * as z from 'zod';
import type { CheckResult } from '../check.js';
import { missingSays } from '../labels.js';
import type { checkShape } from '../start-shapes.js';

/** What `check --json` prints where nothing is wrong. */
export const checkJson = ({ products, feeds, doubts, missing, ...rest }: CheckResult): z.infer<typeof checkShape> => ({
  schema: 'velamen.check/1',
  ...rest,
  products: [...products],
  feeds: [...feeds],
  doubts: [...doubts],
  missing: missing.map((one) => ({ ...one, products: [...one.products], says: missingSays(one) })),
});
