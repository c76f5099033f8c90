import * as z from 'zod';
import { amount, cloudingLine, feedHeader, hazardLine, maybe } from './shapes.js';

const tank = z.strictObject({
  name: z.string().describe('A (calcium), B, or stock where there is one bottle'),
  items: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      gramsPerJug: amount.optional().describe('powders'),
      millilitresPerJug: amount.optional().describe('liquids'),
      perLitre: amount.describe('g or mL in one litre of stock'),
    }),
  ),
  pH: z.number(),
  fullest: z
    .strictObject({ what: z.string(), share: amount.describe('1 = the limit, a tenth below saturation') })
    .nullable(),
  precipitation: z.array(cloudingLine),
  steps: z.array(z.string()),
  hazards: z.array(z.string()).describe('GHS codes of the solution, by the most that its products may hold'),
  label: z.array(z.string()),
  keepsWeeks: amount,
});

const apart = z.strictObject({
  id: z.string(),
  name: z.string(),
  gramsPerLitre: amount.optional(),
  millilitresPerLitre: amount.optional(),
  why: z.string(),
});

/** What `concentrate --json` prints. */
export const concentrateShape = z.strictObject({
  schema: z.literal('velamen.concentrate/1'),
  status: z.enum(['made', 'too strong', 'nothing to dissolve']),
  feed: feedHeader.nullable(),
  recipe: z.string().nullable(),
  ratio: amount.describe('one part of each stock in so many parts of feed'),
  ratioBy: z
    .enum(['asked', 'usual', 'strongest'])
    .describe('strongest: nobody asked, and the usual 1:100 would be too strong'),
  dosePerLitre: amount.describe('mL of each stock in a litre of feed'),
  holds: z
    .strictObject({ ratio: amount, dosePerLitre: amount, command: z.string() })
    .nullable()
    .describe('the strongest that holds where the ratio asked does not'),
  shares: z
    .array(
      z.strictObject({
        feed: z.string(),
        mix: amount.describe('parts of the shared mix'),
        water: amount.describe('parts of water'),
        dosePerLitre: amount.describe('mL of each stock in a litre of this feed'),
      }),
    )
    .optional()
    .describe('where it is one mix for several feeds'),
  jugMillilitres: amount,
  coldestCelsius: z.number(),
  fill: z.string().describe('the water for the bottles'),
  tanks: z.array(tank),
  apart: z.array(apart).describe('what belongs into no stock bottle, per litre of feed'),
  can: z.strictObject({ pH: z.number(), precipitation: z.array(cloudingLine) }).nullable(),
  largest: z.array(
    z.strictObject({
      tanks: z.union([z.literal(1), z.literal(2)]),
      ratio: maybe.describe('rounded down; null where not even 1:2 holds'),
      dosePerLitre: maybe,
      limitedBy: z.array(z.string()).describe('what breaks first just above it'),
    }),
  ),
  why: z.array(z.string()).describe('what breaks at the ratio asked'),
  use: z.array(z.string()),
  lasts: z.strictObject({ feedLitres: amount, batches: maybe, weeks: maybe }).nullable(),
  keeping: z.array(z.string()),
  jarTest: z.array(z.string()),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});

export type ConcentrateJson = z.infer<typeof concentrateShape>;
