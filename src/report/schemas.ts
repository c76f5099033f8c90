import * as z from 'zod';
import { adviceShape, byPen } from './advice-shapes.js';
import { buyOneShape } from './buy-one-shape.js';
import { buyShape, substitutesShape } from './buy-shapes.js';
import { concentrateShape } from './concentrate-shapes.js';
import { calibrateShape, meterShape, standardShape, weighedShape } from './meter-shapes.js';
import {
  amount,
  cloudingLine,
  hazardLine,
  element,
  feedHeader,
  item,
  maybe,
  misses,
  mix,
  nitrogenShares,
  problemShape,
  proof,
  waterShare,
} from './shapes.js';
import {
  journalCostShape,
  journalEntryShape,
  journalPotShape,
  journalShape,
  journalStockShape,
} from './journal-shapes.js';
import { reachAgainstShape, reachAllShape } from './reach-shapes.js';
import { seasonShape } from './season-shapes.js';
import { storageShape } from './storage-shapes.js';
import { oneShape } from './one-shapes.js';
import { blendShape } from './blend-shapes.js';
import { noSheetShape, sheetShape } from './sheet-shapes.js';
import { checkShape, startShape } from './start-shapes.js';

export { blendCannotShape, blendMadeShape, blendShape } from './blend-shapes.js';

/** The shapes printed by --json, as zod schemas; published as JSON Schema by `velamen schema COMMAND`. */

/** What any command prints with --json when it refuses its input. */
export const refusedShape = z.strictObject({
  schema: z.string(),
  status: z.literal('refused'),
  problems: z.array(problemShape).min(1),
});

/** What `blend --frontier` prints. */
export const frontierShape = z.strictObject({
  schema: z.literal('velamen.frontier/2'),
  status: z.enum(['optimal', 'infeasible', 'uncertified', 'unfinished']),
  feed: feedHeader,
  costUnit: z.string(),
  points: z
    .array(
      z.strictObject({
        near: amount.describe('the share that `--near` takes to give this very feed'),
        main: amount.describe('times its aim, or its aim divided by it, that a main element may be in the plan'),
        trace: amount.describe('the same of a trace element'),
        farthest: z
          .strictObject({ element, mgPerLitre: amount, aim: amount })
          .nullable()
          .describe('the element farthest from its aim, in widths of its kind'),
        cost: z.number().describe('per litre, in costUnit; products without a price at the dearest known one'),
        costPerLitre: z.number().describe('money per litre, as `blend` tells it'),
        sure: amount.max(1).describe('share of cans that keep the limits'),
        items: z.array(item),
        waters: z.array(waterShare),
        costOfCloser: maybe.describe(
          'cost per litre of each percentage point nearer, up to here; null at the cheapest',
        ),
      }),
    )
    .describe('from nearest to cheapest; nothing is said of shares between them'),
  notes: z.array(z.string()),
  proof,
});

const gradedMisses = z.array(
  z.strictObject({
    limit: z.string(),
    value: z.number(),
    bound: z.number(),
    grade: z.enum(['harm', 'need', 'custom']),
  }),
);

/** What `assess` prints of a recipe. */
export const assessShape = z.strictObject({
  schema: z.literal('velamen.assess/1'),
  status: z.enum(['within', 'outside', 'no programme']),
  feed: feedHeader.nullable(),
  recipe: z.string(),
  volumeLitres: amount,
  byPen,
  ...mix,
  verdict: z
    .strictObject({ is: z.enum(['good', 'conventions', 'lacks', 'harms']), says: z.string() })
    .nullable()
    .describe('null where it is held against nothing'),
  misses,
  lacks: gradedMisses.describe('the misses by grade, the gravest first'),
  change: z
    .strictObject({
      id: z.string(),
      name: z.string(),
      unit: z.enum(['g', 'mL']),
      from: amount.describe('for the whole volume; 0 where it was not in it'),
      to: amount.describe('0 where it is left out'),
      words: z.string().nullable().describe('in measures of the kit; null where it is left out'),
      says: z.string(),
      lacks: gradedMisses.describe('what is missed then'),
      reading: z.strictObject({ mSPerCm: amount, low: amount, high: amount }).describe('of a can made right, at 25 °C'),
    })
    .nullable()
    .describe('the change of one dose that helps most; null where none does'),
  mostShare: z
    .number()
    .nullable()
    .describe('the largest share of the amounts of which nothing is too much; null where nothing is'),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});

const band = z.strictObject({ min: z.number().optional(), aim: z.number().optional(), max: z.number().optional() });

/** What `blend --programmes` lists. */
export const programmesShape = z.strictObject({
  schema: z.literal('velamen.programmes/1'),
  status: z.literal('listed'),
  programmes: z.array(
    z.strictObject({
      plants: z.string(),
      medium: z.string(),
      phase: z.string(),
      bands: z.partialRecord(element, band).describe('mg/L in the feed solution at full strength'),
      rules: z.array(
        z.strictObject({
          text: z.string(),
          terms: z.partialRecord(z.union([element, z.literal('alkalinity')]), z.number()),
          lower: z.number().optional(),
          upper: z.number().optional(),
          from: z.string(),
        }),
      ),
      maxEc: z.number().optional().describe('mS/cm'),
      evidence: z.array(z.string()),
    }),
  ),
});

export const labelsShape = z.strictObject({
  schema: z.literal('velamen.labels/1'),
  status: z.literal('read'),
  shelf: z.string(),
  printed: z
    .strictObject({
      understood: z.array(z.strictObject({ printed: z.string(), column: z.string(), percent: z.number() })),
      leftOver: z.array(z.string()),
    })
    .optional()
    .describe('of a printed text: what each figure was taken for, and those that stand beside no nutrient'),
  added: z.strictObject({ id: z.string(), file: z.string() }).optional().describe('where a label was put on the shelf'),
  missing: z
    .array(z.strictObject({ of: z.enum(['bulk density', 'price', 'sources']), products: z.array(z.string()) }))
    .describe('what the shelf does not say, each kind with the ids of its products'),
  storage: storageShape.optional().describe('how each jar is kept'),
  products: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      per: z.enum(['g/L', 'mL/L']),
      elements: z.array(
        z.strictObject({
          element,
          mgPerLitre: maybe.describe('from 1 g/L or 1 mL/L; null where the label is silent'),
          low: z.number(),
          high: z.number(),
          closed: z
            .strictObject({ low: z.number(), value: z.number(), high: z.number() })
            .optional()
            .describe(
              'of what the label is silent on: what the salts it names, or every plausible counter-ion, make likely; no guarantee',
            ),
        }),
      ),
      nitrogenShares,
      open: z.array(z.string()),
      problems: z.array(problemShape),
      ec: z
        .strictObject({
          mSPerCm: z.number(),
          low: z.number(),
          high: z.number(),
          from: z.enum(['measured', 'formula', 'sources', 'label alone']),
        })
        .describe('from 1 g/L or 1 mL/L in pure water at 25 °C'),
      ph: z
        .strictObject({ value: z.number(), low: z.number(), high: z.number(), asMixed: z.number() })
        .describe('of 1 g/L or 1 mL/L in pure water that has stood open to air'),
      precipitation: z.array(cloudingLine).describe('of 1 g/L or 1 mL/L in pure water by itself'),
      acidity: z.number().describe('potential acidity, g CaCO3 per kg or per litre of product; negative is basicity'),
    }),
  ),
});

/** Command → shape of its --json object. */
export const SHAPES: ReadonlyMap<string, z.ZodType> = new Map<string, z.ZodType>([
  ['labels', labelsShape],
  ['start', startShape],
  ['check', checkShape],
  ['blend', blendShape],
  ['one', oneShape],
  ['frontier', frontierShape],
  ['reach', reachAgainstShape],
  ['reach-all', reachAllShape],
  ['buy', buyShape],
  ['buy-one', buyOneShape],
  ['substitutes', substitutesShape],
  ['programmes', programmesShape],
  ['assess', assessShape],
  ['advice', adviceShape],
  ['concentrate', concentrateShape],
  ['sheet', z.union([sheetShape, noSheetShape])],
  ['season', seasonShape],
  ['meter', meterShape],
  ['calibrate', calibrateShape],
  ['weighed', weighedShape],
  ['standard', standardShape],
  ['journal', journalShape],
  ['journal-entry', journalEntryShape],
  ['journal-stock', journalStockShape],
  ['journal-cost', journalCostShape],
  ['journal-pot', journalPotShape],
]);
