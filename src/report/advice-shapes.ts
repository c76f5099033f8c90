import * as z from 'zod';
import { amount, element, feedHeader, hazardLine, item } from './shapes.js';

const span = { low: amount, high: amount };

const ownMatch = z.strictObject({
  wanted: amount.describe('what the reading asks for: mg/L of `counts`, or mS/cm'),
  reached: amount,
  strength: z.string().describe('as blend --strength takes it'),
  percent: amount,
  nitrogen: amount.describe('mg/L'),
  ec: amount.describe('mS/cm of the whole feed solution at 25 °C'),
  elements: z.array(z.strictObject({ element, mgPerLitre: amount })),
  ammoniumShare: amount.nullable(),
  items: z.array(item),
  limitedBy: z.string().nullable().describe('why the own feed cannot follow; null where it does'),
});

/** What `assess` prints for advice in words instead of a recipe. */
export const adviceShape = z.strictObject({
  schema: z.literal('velamen.advice/1'),
  status: z.enum(['within', 'partly', 'outside', 'no feed']),
  certainty: z.enum(['exact', 'range', 'base unknown']),
  advice: z.string(),
  readings: z
    .array(
      z.strictObject({
        says: z.string(),
        counts: z.union([element, z.literal('EC')]).nullable(),
        wanted: z.strictObject(span).nullable(),
        gramsPerLitre: z.strictObject(span).nullable(),
        elements: z.array(z.strictObject({ element, ...span })).describe('mg/L'),
        ec: z.strictObject(span).nullable().describe('mS/cm at 25 °C'),
        aboveWater: z.literal(true).optional().describe('`wanted` is what the feed adds to the reading of the water'),
      }),
    )
    .describe('every sense that the words can have'),
  own: z
    .strictObject({
      feed: feedHeader,
      waterEc: amount,
      matches: z.array(z.strictObject({ low: ownMatch, high: ownMatch }).nullable()),
    })
    .nullable(),
  notes: z.array(z.string()),
  needed: z.array(z.string()).describe('what would make the range narrower'),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});

/** Parts of a recipe that the pen told. */
export const byPen = z
  .array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      unit: z.enum(['g', 'mL']),
      told: z.strictObject({
        by: z.enum(['more', 'until']).describe('so much more than before, or so much in all'),
        mSPerCm: amount,
        ppm: amount.nullable().describe('as told; null where a conductivity was'),
        scale: amount.nullable().describe('ppm per mS/cm'),
      }),
      amount: amount.describe('g or mL for the whole volume, as are low and high'),
      low: amount,
      high: amount,
      before: amount.describe('mS/cm at 25 °C before it goes in'),
      after: amount,
    }),
  )
  .describe('parts of which the pen told how much, in the order told');
