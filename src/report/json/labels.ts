import type * as z from 'zod';
import type { LabelsResult } from '../labels.js';
import type { labelsShape } from '../schemas.js';
import { leftOpenSays } from '../says/left-open.js';
import { cloudingJson } from './mix.js';
import { storageJson } from './storage.js';

/** What `labels --json` prints. */
export const labelsJson = ({ printed, ...result }: LabelsResult): z.infer<typeof labelsShape> => ({
  schema: 'velamen.labels/1',
  ...result,
  ...(printed ? { printed: { understood: [...printed.understood], leftOver: [...printed.leftOver] } } : {}),
  storage: storageJson(result.storage),
  products: result.products.map((product) => ({
    ...product,
    open: product.open.map(leftOpenSays),
    precipitation: product.precipitation.map(cloudingJson),
  })),
});
