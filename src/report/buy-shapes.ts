import * as z from 'zod';
import { given } from './blend-shapes.js';
import { amount, feedHeader, hazardLine, maybe, mix, proof } from './shapes.js';

const unit = z.enum(['g', 'mL']);
const limits = z.array(z.strictObject({ limit: z.string(), value: z.number(), bound: z.number() }));

export const pack = z.strictObject({
  id: z.string(),
  name: z.string(),
  count: z.int().min(1).describe('packs to buy'),
  price: amount.describe('money for one pack'),
  pack: amount.describe('g or mL in one pack'),
  unit,
  isNew: z.boolean().describe('false for more of what stands on the shelf'),
  isInvented: z.boolean().describe('true for an invented product, which stands for any with such a label'),
});

export const stock = z.strictObject({
  id: z.string(),
  name: z.string(),
  unit,
  onHand: amount.nullable().describe('null when the shelf does not say'),
  bought: amount,
  used: amount.describe('over the horizon'),
  left: amount.nullable(),
  months: amount.nullable().describe('how long shelf and packs last; null when not used or unknown'),
});

const way = z.enum(['cheapest', 'simplest', 'nearest']);

const option = z.strictObject({
  kind: way.describe('what it is chosen for'),
  kinds: z.array(way).describe('all that it is the best for'),
  packs: z.array(pack),
  spend: amount.describe('money for packs'),
  waterCost: amount.describe('money for water over the horizon'),
  total: amount.describe('spend + waterCost: what is made least'),
  feeds: z.array(
    z.strictObject({
      ...mix,
      feed: feedHeader,
      litres: amount.describe('over the horizon'),
      justMet: limits.describe('limits with less than 2 % to spare'),
      missed: limits.describe('limits of harm or need that the doses of the kit miss'),
      isLost: z.boolean().describe('true where the kit gives no such feed: the amounts are not measured out'),
      ...z.strictObject(given).partial().shape,
    }),
  ),
  stock: z.array(stock),
  laterYears: maybe.describe('money a year for what the feeds use, water with it; null where a price is unknown'),
  width: maybe.describe('times the usual widths around the aims within which these packs hold the feeds'),
  proof,
});

export const conflict = z.array(z.strictObject({ limit: z.string(), from: z.string(), because: z.array(z.string()) }));

export const lookFor = z
  .array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      form: z.enum(['powder', 'liquid']),
      figures: z.array(z.strictObject({ figure: z.string(), least: amount, now: amount, most: amount })),
      nitrate: maybe.describe('least share of its nitrogen that is nitrate'),
      traces: z.enum(['none', 'either', 'needed']),
      says: z.string(),
    }),
  )
  .describe('labels to look for in place of invented products: % (w/v of a liquid), P as P2O5 and K as K2O');

/** What `buy` prints. */
export const buyShape = z.strictObject({
  schema: z.literal('velamen.buy/2'),
  status: z
    .enum(['optimal', 'infeasible', 'uncertified', 'unfinished'])
    .describe('unfinished: the search ended before it was done; the options are the best so far, or there is none yet'),
  currency: z.string(),
  weeks: amount,
  plan: z.array(z.strictObject({ feed: feedHeader, weeklyLitres: amount, litres: amount })),
  market: z.strictObject({ name: z.string(), products: z.int() }),
  options: z
    .array(option)
    .describe('first those whose doses keep what hurts and what plants need; of those alike the cheapest'),
  lookFor,
  oneMoreAllowed: z.strictObject({ spend: amount, products: z.array(z.string()) }).nullable(),
  comparison: z
    .strictObject({
      alone: z.array(z.strictObject({ feed: z.string(), spend: maybe, products: z.array(z.string()) })),
      aloneSpend: maybe,
      jointSpend: amount,
      fewest: z.strictObject({ products: z.array(z.string()), spend: amount, proved: z.boolean() }).nullable(),
    })
    .nullable(),
  failures: z.array(z.strictObject({ feed: z.string(), conflict })),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
  proof,
});

const judged = {
  largestMiss: amount.describe('largest distance from an element of the original feed, as a share of it'),
  sumOfMisses: amount,
  holds: z.boolean().describe('every limit of the feed is kept'),
  broken: limits,
};

/** What `buy --instead-of ID` prints. */
export const substitutesShape = z.strictObject({
  schema: z.literal('velamen.substitutes/2'),
  status: z.enum(['found', 'not used', 'none']),
  product: z.strictObject({ id: z.string(), name: z.string() }),
  currency: z.string(),
  market: z.strictObject({ name: z.string(), products: z.int() }),
  feeds: z.array(
    z.strictObject({
      feed: feedHeader,
      original: z
        .strictObject({ dose: amount, unit, costPerLitre: amount, keepsLimits: z.boolean(), broken: z.int() })
        .nullable()
        .describe('null where there is neither a feed nor a nearest one to compare with'),
      leftOut: z.strictObject(judged).nullable().describe('the feed with nothing in its place'),
      substitutes: z.array(
        z.strictObject({
          id: z.string(),
          name: z.string(),
          dose: amount.describe('g or mL per litre in the feed that comes closest'),
          unit,
          perOriginal: amount.nullable().describe('g or mL of it for one g or mL of the original'),
          costPerLitre: amount,
          pack: amount,
          price: maybe,
          ...judged,
        }),
      ),
    }),
  ),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});
