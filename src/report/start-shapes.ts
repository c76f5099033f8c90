import * as z from 'zod';
import { problemShape } from './shapes.js';

/** What `start` prints with --json. */
export const startShape = z.strictObject({
  schema: z.literal('velamen.start/1'),
  status: z.literal('made'),
  folder: z.string(),
  files: z.array(z.string()).describe('that were written into it'),
  labels: z.array(
    z.strictObject({
      text: z.string().describe('the label as it was given'),
      id: z.string(),
      name: z.string(),
      form: z.enum(['powder', 'liquid']),
      basis: z.enum(['w/w', 'w/v']).describe('of the %: by weight, or g in 100 mL'),
      density: z.number().nullable().describe('g/mL of a liquid'),
      understood: z
        .array(z.strictObject({ printed: z.string(), column: z.string(), percent: z.number() }))
        .describe('what was printed, and the column and % that it was taken for; empty for a plain salt'),
      leftOver: z.array(z.string()).describe('figures beside which no nutrient stands'),
      derivedFrom: z.array(z.string()),
      doubts: z.array(problemShape),
    }),
  ),
  assumed: z.array(z.strictObject({ of: z.string(), says: z.string() })).describe('what nobody told'),
  cans: z
    .array(
      z.strictObject({
        feed: z.string(),
        status: z.enum(['made', 'cannot', 'open', 'unfed']),
        says: z.string(),
        items: z.array(z.strictObject({ id: z.string(), name: z.string(), measure: z.string() })),
      }),
    )
    .describe('what the shelf makes of each feed: in full by `blend --json`'),
});

/** What `check` prints with --json where nothing is wrong. */
export const checkShape = z.strictObject({
  schema: z.literal('velamen.check/1'),
  status: z.enum(['sound', 'doubtful']),
  bench: z.string().nullable().describe('null where there is no bench.yaml'),
  shelf: z.string(),
  products: z.array(z.string()),
  feeds: z.array(z.string()),
  doubts: z.array(problemShape),
  missing: z
    .array(
      z.strictObject({
        of: z.enum(['bulk density', 'price', 'sources']),
        products: z.array(z.string()),
        says: z.string(),
      }),
    )
    .describe('what the shelf does not say, each kind with the ids of its products'),
});
