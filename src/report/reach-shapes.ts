import * as z from 'zod';
import { amount, element, feedHeader, maybe, proof } from './shapes.js';

const reachLine = z.strictObject({
  element,
  lowest: maybe,
  highest: maybe,
  capsOnly: z.strictObject({ lowest: maybe, highest: maybe }),
  min: maybe,
  aim: maybe,
  max: maybe,
  reachable: z.boolean().describe('it can be brought into its band'),
  aimReachable: z
    .boolean()
    .nullable()
    .describe(
      'it can be brought to its aim with every other limit kept; null without an aim, or where those cannot all be kept',
    ),
  decides: z
    .string()
    .nullable()
    .describe(
      'the one product or limit without which it comes nearest to its aim (without an aim: what most keeps it from its band); null where nothing does',
    ),
  limitedBy: z.array(z.string()),
});

export const reachShape = z.strictObject({
  schema: z.literal('velamen.reach/1'),
  status: z.enum(['optimal', 'infeasible', 'uncertified', 'unfinished']),
  feed: feedHeader,
  shelf: z.string(),
  elements: z.array(reachLine),
  aimsMiss: amount
    .nullable()
    .describe(
      '0: the aims in reach can be met at once; else how far the feed of --closest is from its farthest aim, as a share',
    ),
  farthest: element.nullable().describe('the element of that aim'),
  conflict: z.array(z.string()).describe('limits that contradict each other, where not all can be kept'),
  notes: z.array(z.string()),
  proof,
});

/** With --against, the same for the other shelf. */
export const reachAgainstShape = reachShape.extend({ against: reachShape.optional() });

/** What `reach --all` prints. */
export const reachAllShape = z.strictObject({
  schema: z.literal('velamen.reach-all/1'),
  status: z.enum(['reachable', 'out of reach']),
  feeds: z.array(reachShape),
});
