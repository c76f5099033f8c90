import * as z from 'zod';
import { NUTRIENTS } from '../chemistry/nutrients.js';

/** The shapes printed by --json, as zod schemas; published as JSON Schema by `velamen schema COMMAND`. */

const amount = z.number().min(0);
const maybe = z.number().nullable();
const element = z.enum(NUTRIENTS);

export const problemShape = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning']),
  where: z.strictObject({ file: z.string().optional(), line: z.int().min(1).optional(), field: z.string().optional() }),
  found: z.string(),
  expected: z.string(),
  fix: z.string(),
});

/** What any command prints with --json when it refuses its input. */
export const refusedShape = z.strictObject({
  schema: z.string(),
  status: z.literal('refused'),
  problems: z.array(problemShape).min(1),
});

const feedHeader = z.strictObject({
  name: z.string(),
  plants: z.string(),
  medium: z.string(),
  phase: z.string(),
  strength: z.string(),
  strengthFactor: amount.describe('factor applied to the programme’s bands'),
  batchLitres: amount.nullable(),
  currency: z.string(),
});

const item = z.strictObject({
  id: z.string(),
  name: z.string(),
  gramsPerLitre: amount.optional().describe('powders'),
  millilitresPerLitre: amount.optional().describe('liquids'),
  perBatch: amount.nullable().describe('g or mL for the whole batch'),
  costPerLitre: amount.nullable().describe('null when no price is known'),
});

const waterShare = z.strictObject({
  id: z.string(),
  name: z.string(),
  share: amount.describe('share of the can, 0 to 1'),
  costPerLitre: amount,
});

const elementLine = z.strictObject({
  element,
  mgPerLitre: z.number().describe('mg/L of the element in the can, as labels state it'),
  low: z.number().describe('least the labels allow'),
  high: z.number().describe('most the labels allow'),
  min: maybe,
  aim: maybe,
  max: maybe,
});

const ruleLine = z.strictObject({
  rule: z.string(),
  from: z.string(),
  value: maybe.describe('left side, or the ratio for A <= k * B'),
  bound: maybe.optional(),
  holds: z.boolean(),
});

const ec = z.strictObject({
  mSPerCm: z.number().describe('predicted at 25 °C, water included'),
  low: z.number(),
  high: z.number(),
  max: maybe,
});

const stage = z.strictObject({
  goal: z.string(),
  found: z.number(),
  bound: z.number(),
  gap: z.number(),
  violation: z.number(),
  engine: z.string(),
});

const proof = z.strictObject({
  engine: z.string(),
  verdict: z.enum(['optimal', 'infeasible', 'uncertified']),
  found: maybe.describe('cost per litre found'),
  bound: maybe.describe('cost per litre below which no mix exists'),
  gap: maybe,
  violation: maybe,
  sentence: z.string(),
  stages: z.array(stage).optional(),
});

const nitrogenShares = z
  .strictObject({
    nitrate: z.number(),
    ammonium: z.number(),
    urea: z.number(),
    other: z.number(),
    undeclared: z.number(),
  })
  .nullable();

const mix = {
  items: z.array(item),
  waters: z.array(waterShare),
  elements: z.array(elementLine),
  nitrogenShares,
  rules: z.array(ruleLine),
  costPerLitre: amount,
  costPerBatch: amount.nullable(),
  ec,
};

const misses = z.array(z.strictObject({ limit: z.string(), value: z.number(), bound: z.number() }));

const priceSide = z.strictObject({
  pricePerUnit: maybe.describe('cost per litre for each unit of the bound; null: it cannot move that way'),
  limit: maybe.describe('the bound up to which that price holds; null: for ever'),
});

const productPrice = z.strictObject({
  id: z.string(),
  unit: z.enum(['g', 'mL']),
  price: amount.describe('money per g or mL as counted in the blend'),
  lowest: maybe.describe('used: the blend stays best from here; not used: it comes in below; null: never'),
  highest: maybe.describe('used: the blend stays best up to here; null: at any price'),
  pack: maybe,
  lowestPerPack: maybe,
  highestPerPack: maybe,
  sentence: z.string(),
});

const prices = z.strictObject({
  limits: z.array(
    z.strictObject({
      limit: z.string(),
      from: z.string(),
      end: z.enum(['least', 'most']),
      bound: z.number(),
      unit: z.string().describe('what the bound is counted in'),
      left: priceSide.describe('for a smaller bound'),
      right: priceSide.describe('for a greater bound'),
      lifted: z
        .strictObject({ costPerLitre: z.number(), saves: amount.describe('share of the cost, 0 to 1') })
        .nullable(),
      sentence: z.string(),
    }),
  ),
  used: z.array(productPrice),
  unused: z.array(productPrice),
});

export const blendShape = z.strictObject({
  schema: z.literal('velamen.blend/1'),
  status: z.enum(['optimal', 'infeasible', 'uncertified']),
  goal: z.enum(['cheapest', 'closest']),
  feed: feedHeader,
  ...mix,
  unknowns: z.array(z.string()),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  proof,
  prices: prices.optional(),
  conflict: z.array(z.strictObject({ limit: z.string(), from: z.string(), because: z.array(z.string()) })).optional(),
  relaxations: z
    .array(z.strictObject({ limit: z.string(), change: z.string(), from: z.number(), to: z.number() }))
    .optional(),
  nearest: z
    .strictObject({ ...mix, misses })
    .nullable()
    .optional(),
});

/** What `blend --frontier` prints. */
export const frontierShape = z.strictObject({
  schema: z.literal('velamen.frontier/1'),
  status: z.enum(['optimal', 'infeasible', 'uncertified']),
  feed: feedHeader,
  costUnit: z.string(),
  points: z
    .array(
      z.strictObject({
        miss: amount.describe('largest miss from an aim, as a share of it'),
        cost: z.number().describe('per litre, in costUnit'),
        misses: z.array(z.strictObject({ element, side: z.enum(['above', 'below']) })),
        items: z.array(item),
        waters: z.array(waterShare),
        costOfCloser: maybe.describe(
          'cost per litre of each percentage point closer, up to here; null at the cheapest',
        ),
      }),
    )
    .describe('corners from closest to cheapest; straight lines between them'),
  proof,
});

const reachLine = z.strictObject({
  element,
  lowest: maybe,
  highest: maybe,
  capsOnly: z.strictObject({ lowest: maybe, highest: maybe }),
  min: maybe,
  aim: maybe,
  max: maybe,
  reachable: z.boolean(),
  limitedBy: z.array(z.string()),
});

export const reachShape = z.strictObject({
  schema: z.literal('velamen.reach/1'),
  status: z.enum(['optimal', 'infeasible', 'uncertified']),
  feed: feedHeader,
  shelf: z.string(),
  elements: z.array(reachLine),
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

export const assessShape = z.strictObject({
  schema: z.literal('velamen.assess/1'),
  status: z.enum(['within', 'outside', 'no programme']),
  feed: feedHeader.nullable(),
  recipe: z.string(),
  volumeLitres: amount,
  ...mix,
  misses,
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
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
      bands: z.partialRecord(element, band).describe('mg/L in the can at full strength'),
      rules: z.array(
        z.strictObject({
          text: z.string(),
          terms: z.partialRecord(element, z.number()),
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
        }),
      ),
      nitrogenShares,
      open: z.array(z.string()),
      problems: z.array(problemShape),
    }),
  ),
});

/** Command → shape of its --json object. */
export const SHAPES: ReadonlyMap<string, z.ZodType> = new Map<string, z.ZodType>([
  ['labels', labelsShape],
  ['blend', blendShape],
  ['frontier', frontierShape],
  ['reach', reachAgainstShape],
  ['reach-all', reachAllShape],
  ['programmes', programmesShape],
  ['assess', assessShape],
]);
