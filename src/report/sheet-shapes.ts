import * as z from 'zod';
import { given } from './blend-shapes.js';
import { amount, elementLine, feedHeader, hazardLine, maybe, misses } from './shapes.js';

const reading = z.strictObject({
  mSPerCm: amount.describe('at 25 °C'),
  pen: amount.nullable().describe('ppm on the scale of the pen; null for a pen that shows EC'),
  low: amount.describe('mS/cm; nine of ten good batches lie between low and high'),
  high: amount,
});

const unit = z.enum(['g', 'mL']);

const step = z.strictObject({
  id: z.string(),
  name: z.string(),
  grams: amount.nullable().describe('for the batch; null for a liquid of unknown density'),
  millilitres: amount.nullable().describe('for the batch; null for a powder'),
  measures: z
    .array(
      z.strictObject({
        tool: z.string(),
        words: z.string(),
        amount,
        unit,
        actions: amount.describe('scoops, drops, fills or weighings'),
        keeps: z.boolean().describe('every limit still holds with this one'),
      }),
    )
    .min(1)
    .describe('the chosen one first'),
  wanted: amount.describe('g or mL that the blend (or the nearest feed) wants'),
  effect: z.string(),
  borrowed: z.boolean().describe('nothing in the kit measures it: the amount is one for a borrowed scale or syringe'),
  byPen: z
    .union([
      z.strictObject({
        by: z.literal('pen'),
        start: z.string().nullable().describe('what to start with; null: pinches alone'),
        until: amount.describe('what the pen shows then, in unit'),
        tolerance: amount.describe('as good within so much of it'),
        unit: z.enum(['ppm', 'mS/cm']),
      }),
      z.strictObject({ by: z.literal('measure'), why: z.enum(['does not conduct', 'organic', 'too little']) }),
    ])
    .nullable()
    .describe('null where all doses go by measure'),
  litres: amount.describe('in the can while it goes in'),
  reading: reading.describe('of the can with everything up to here'),
});

const slip = z.strictObject({
  slip: z.enum([
    'not topped up',
    'too much water',
    'too little water',
    'forgotten',
    'twice',
    'wrong scale',
    'not compensated',
  ]),
  id: z.string().nullable(),
  mSPerCm: amount,
  pen: amount.nullable(),
  millilitres: maybe.describe('of water too much; negative: missing'),
  scale: amount.nullable(),
  celsius: maybe,
  shows: z.boolean().describe('false: the reading stays within the tolerance of a good batch'),
});

const interval = { low: amount.describe('nineteen of twenty batches lie above'), high: amount };
const share = z.number().min(0).max(1);

const sure = z.strictObject({
  share: share.describe('of batches that keep every limit'),
  elements: z.array(z.strictObject({ element: z.string(), ...interval })).describe('mg/L, 90 % intervals'),
  ec: z.strictObject(interval).describe('mS/cm of a true pen at 25 °C'),
  risks: z
    .array(z.strictObject({ limit: z.string(), side: z.enum(['low', 'high']), share }))
    .describe('limits that some batches break'),
  sources: z
    .array(z.strictObject({ source: z.string(), shareWithout: share }))
    .describe('share that would hold if this one did not vary'),
  batches: amount,
  seed: z.number(),
});

const leftOut = z.array(z.strictObject({ id: z.string(), name: z.string(), wanted: amount, unit }));

/** What `sheet --json` prints of a mixing sheet. */
export const sheetShape = z.strictObject({
  schema: z.literal('velamen.sheet/1'),
  status: z.enum(['kept', 'missed', 'infeasible', 'uncertified']),
  feed: feedHeader,
  date: z.string().nullable(),
  code: z.string().nullable().describe('the batch in letters, for `meter --sheet`'),
  litres: amount,
  firstLitres: amount.describe('to begin with'),
  water: z.strictObject({
    names: z.string(),
    parts: z.array(z.strictObject({ name: z.string(), share: amount.describe('of the can, 0 to 1') })),
    reading,
    measured: z.boolean(),
  }),
  pen: z.union([z.literal('EC'), amount.describe('ppm per mS/cm')]),
  nitrogen: z.strictObject({ mgPerLitre: amount, aim: amount.nullable(), ammoniumShare: amount.nullable() }),
  steps: z.array(step).describe('in the order in which they go into the can'),
  order: z.strictObject({ verdict: z.enum(['clear', 'borderline', 'will cloud']), says: z.array(z.string()) }),
  end: z.strictObject({
    reading: reading.describe('at the mark'),
    atTemperature: reading.extend({ celsius: z.number() }).nullable().describe('on a pen that does not correct'),
    ph: z.strictObject({ value: z.number(), low: z.number(), high: z.number(), asMixed: z.number() }),
  }),
  learned: z
    .strictObject({
      batches: z.int(),
      from: z.string(),
      to: z.string(),
      predicted: reading.describe('of the full can, by labels alone'),
    })
    .nullable()
    .describe('where readings are narrowed by good batches of the journal'),
  slips: z.array(slip).describe('what common slips would make the finished can read'),
  unseen: z.array(z.string()),
  keeps: given.keeps,
  elements: z.array(elementLine).describe('as measured out'),
  misses,
  offers: z.array(z.string()),
  leftOut,
  dilutions: z
    .array(
      z.strictObject({
        feed: z.string(),
        parts: z.strictObject({ mix: z.int().min(1), water: z.int().min(0) }),
        litres: amount,
        mixLitres: amount.describe('of the mix in so many litres of the feed'),
      }),
    )
    .optional()
    .describe('how each feed is made of it, where it is a mix for several'),
  sure: sure.nullable(),
  sureness: z.array(z.string()),
  near: given.near.optional().describe('of a feed that is given, as in blend'),
  wayOut: given.wayOut.optional(),
  beside: given.beside.optional(),
  costPerYear: given.costPerYear.optional(),
  custom: given.custom.optional(),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
  asMixed: z.array(z.string()).describe('GHS codes of the finished can, by the most that its products may hold'),
  proof: z.string(),
});

/** What it prints where there is nothing to mix. */
export const noSheetShape = z.strictObject({
  schema: z.literal('velamen.sheet/1'),
  status: z.literal('cannot'),
  feed: feedHeader,
  date: z.string().nullable(),
  why: z.string(),
  offers: z.array(z.string()),
  leftOut,
  notes: z.array(z.string()),
  proof: z.string(),
});

export type SheetJson = z.infer<typeof sheetShape>;
export type NoSheetJson = z.infer<typeof noSheetShape>;
