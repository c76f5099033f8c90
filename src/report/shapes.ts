import * as z from 'zod';
import { NUTRIENTS } from '../chemistry/nutrients.js';
import { MINERALS } from '../can/clouding.js';

/** The parts that the shapes of several commands share. */

export const amount = z.number().min(0);
export const maybe = z.number().nullable();
export const element = z.enum(NUTRIENTS);

export const feedHeader = z.strictObject({
  name: z.string(),
  plants: z.string(),
  medium: z.string(),
  phase: z.string(),
  strength: z.string(),
  strengthFactor: amount.describe('factor applied to the programme’s bands'),
  phaseFactor: amount.optional().describe('what the phase multiplies every band by, where that is below 1'),
  batchLitres: amount.nullable(),
  currency: z.string(),
});

export const item = z.strictObject({
  id: z.string(),
  name: z.string(),
  gramsPerLitre: amount.optional().describe('powders'),
  millilitresPerLitre: amount.optional().describe('liquids'),
  perBatch: amount.nullable().describe('g or mL for the whole batch'),
  costPerLitre: amount.nullable().describe('null when no price is known'),
  measures: z
    .array(
      z.strictObject({
        tool: z.string(),
        words: z.string(),
        amount: amount.describe('g of a powder, mL of a liquid, for the can'),
        actions: amount.describe('scoops, drops, fills or weighings'),
      }),
    )
    .optional()
    .describe('how the kit measures it, the chosen way first; absent in a mix that was not measured out'),
});

export const waterShare = z.strictObject({
  id: z.string(),
  name: z.string(),
  share: amount.describe('share of the feed solution, 0 to 1'),
  costPerLitre: amount,
});

export const elementLine = z.strictObject({
  element,
  mgPerLitre: z.number().describe('mg/L of the element in the feed solution, as labels state it'),
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
  holds: z.boolean().describe('whatever the labels leave open'),
  mayHold: z.literal(true).optional().describe('it might hold, by what labels leave open'),
});

const ec = z.strictObject({
  mSPerCm: z.number().describe('predicted at 25 °C, water included'),
  low: z.number(),
  high: z.number(),
  max: maybe,
});

const ecAtTemperature = z.strictObject({
  celsius: z.number(),
  mSPerCm: z.number().describe('at that temperature, as a meter without correction shows it'),
  low: z.number(),
  high: z.number(),
});

const ph = z.strictObject({
  value: z.number().describe('an estimate, after standing open to air'),
  low: z.number(),
  high: z.number(),
  asMixed: z.number().describe('closed to air, with the carbon dioxide that the water brought'),
  caution: z.string(),
});

const acidity = z.strictObject({
  mgCaCO3PerLitre: z.number().describe('potential acidity of a litre of feed solution (Pierre); negative is basicity'),
  low: z.number(),
  high: z.number(),
  ifAllNitrifies: z.number().describe('mg CaCO3 per litre, the worst case'),
  alkalinity: z.number().describe('of the feed solution, meq/L'),
  says: z.array(z.string()),
});

export const hazardLine = z.strictObject({
  item: z.string(),
  codes: z.array(z.string()).describe('hazard statements of the GHS'),
  statements: z.array(z.string()).describe('their wording'),
  may: z.boolean().describe('taken over from the salts it may be made of: its own label decides'),
});

const alkalinity = z
  .strictObject({
    mgCaCO3PerLitre: z.number().describe('of the feed solution: water, alkalis and acids together'),
    medium: z.string(),
    aim: z.number(),
    most: z.number().describe('that the medium bears'),
    source: z.string(),
    evidence: z.string(),
    over: z
      .strictObject({
        meq: z.number().describe('of acid per litre, to the aim'),
        acids: z.array(
          z.strictObject({
            id: z.string(),
            name: z.string(),
            unit: z.enum(['g', 'mL']),
            perLitre: z.number(),
            nitrogen: z.number().describe('mg/L that come with it'),
            phosphorus: z.number(),
            beyond: maybe.describe('the most that the catalog allows, where this is more'),
          }),
        ),
        pureShare: maybe.describe('share of its water to be changed for pure water'),
      })
      .nullable(),
  })
  .nullable();

const ammonia = z
  .strictObject({
    mgPerLitre: z.number().describe('nitrogen as free ammonia, as mixed'),
    standing: z.number(),
    pH: z.number(),
    celsius: z.number(),
    most: z.number(),
    evidence: z.string(),
  })
  .describe('free ammonia, NH3-N');

const iron = z
  .strictObject({
    mgPerLitre: z.number(),
    held: z.number().describe('by chelates that hold at the pH as mixed'),
    pH: z.number(),
    sources: z.array(
      z.strictObject({
        id: z.string(),
        name: z.string(),
        chelate: z.string().nullable().describe('none: a salt or a water; null: its label says none, counted as none'),
        to: z.number().describe('pH to which it holds'),
        source: z.string(),
        mgPerLitre: z.number(),
        holds: z.boolean(),
      }),
    ),
  })
  .nullable();

export const cloudingLine = z.strictObject({
  mineral: z.enum(MINERALS),
  index: maybe.describe('saturation index as mixed; 0 is saturated; null where a part is missing'),
  openIndex: maybe.describe('after standing open to air'),
  verdict: z.enum(['clear', 'borderline', 'will cloud']),
  between: z.tuple([z.string(), z.string()]).nullable().describe('the items that bring most of its parts'),
  sentence: z.string(),
});

const stage = z.strictObject({
  goal: z.string(),
  found: z.number(),
  bound: z.number(),
  gap: z.number(),
  violation: z.number(),
  engine: z.string(),
});

export const proof = z.strictObject({
  engine: z.string(),
  verdict: z.enum(['optimal', 'infeasible', 'uncertified']),
  found: maybe.describe('cost per litre found'),
  bound: maybe.describe('cost per litre below which no mix exists'),
  gap: maybe,
  violation: maybe,
  sentence: z.string(),
  stages: z.array(stage).optional(),
});

export const nitrogenShares = z
  .strictObject({
    nitrate: z.number(),
    ammonium: z.number(),
    urea: z.number(),
    other: z.number(),
    undeclared: z.number(),
  })
  .nullable();

export const mix = {
  items: z.array(item),
  waters: z.array(waterShare),
  elements: z.array(elementLine),
  nitrogenShares,
  rules: z.array(ruleLine),
  costPerLitre: amount,
  costPerBatch: amount.nullable(),
  ec,
  ecAtTemperature: ecAtTemperature.optional(),
  ph,
  acidity,
  alkalinity,
  ammonia,
  iron,
  precipitation: z.array(cloudingLine),
  meetings: z
    .array(
      z.strictObject({
        between: z.tuple([z.string(), z.string()]),
        minerals: z.array(z.enum(MINERALS)),
        sentence: z.string(),
      }),
    )
    .optional()
    .describe('pairs that stay clear in the feed solution but precipitate where they meet undiluted'),
};

export const misses = z.array(z.strictObject({ limit: z.string(), value: z.number(), bound: z.number() }));

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

export const prices = z.strictObject({
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

export const problemShape = z.strictObject({
  code: z.string(),
  severity: z.enum(['error', 'warning']),
  where: z.strictObject({ file: z.string().optional(), line: z.int().min(1).optional(), field: z.string().optional() }),
  found: z.string(),
  expected: z.string(),
  fix: z.string(),
});
