import type * as z from 'zod';
import { blendSheet } from '../blend.js';
import { assumedSays } from '../says/start.js';
import type { StartResult } from '../start.js';
import type { startShape } from '../start-shapes.js';

/** What `start --json` prints. */
export const startJson = (result: StartResult): z.infer<typeof startShape> => ({
  schema: 'velamen.start/1',
  status: result.status,
  folder: result.folder,
  files: [...result.files],
  labels: result.labels.map((label) => ({
    ...label,
    understood: [...label.understood],
    leftOver: [...label.leftOver],
    derivedFrom: [...label.derivedFrom],
    doubts: [...label.doubts],
  })),
  assumed: result.assumed.map((one) => ({ of: one.of, says: assumedSays(one) })),
  cans: [
    ...result.unfed.map(({ feed }) => ({
      feed: feed.name,
      status: 'unfed' as const,
      says: `${feed.name}: do not feed`,
      items: [],
    })),
    ...result.cans.map((can) => ({
      feed: can.feed.name,
      status: can.status,
      says: blendSheet(can).title,
      items:
        can.status === 'made' && 'given' in can
          ? can.given.plan.items.map(({ product, chosen }) => ({
              id: product.id,
              name: product.name,
              measure: chosen.words,
            }))
          : [],
    })),
  ],
});
