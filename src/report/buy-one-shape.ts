import * as z from 'zod';
import { conflict, lookFor, pack, stock } from './buy-shapes.js';
import { apart, oneShape } from './one-shapes.js';
import { amount, feedHeader, hazardLine, maybe, proof } from './shapes.js';

/** What `buy --one` prints. */
export const buyOneShape = z.strictObject({
  schema: z.literal('velamen.buy-one/1'),
  status: z.enum(['optimal', 'infeasible', 'uncertified', 'unfinished']).describe('of the packs, for so many mixes'),
  currency: z.string(),
  weeks: amount,
  plan: z.array(z.strictObject({ feed: feedHeader, weeklyLitres: amount, litres: amount })),
  market: z.strictObject({ name: z.string(), products: z.int() }),
  packs: z.array(pack),
  spend: amount.describe('money for packs'),
  waterCost: amount.describe('money for water over the horizon'),
  total: amount.describe('spend + waterCost: what is made least'),
  stock: z.array(stock),
  laterYears: maybe.describe('money a year for what the feeds use, water with it; null where a price is unknown'),
  one: oneShape.nullable().describe('the mixes once the packs stand on the shelf, as `blend --one` tells them'),
  apart: apart.describe('feeds that could not share one mix, whatever of the market were bought'),
  forbidden: z
    .array(z.array(z.array(z.string())))
    .describe('fewer mixes, by their feeds, that budget, stock or the number of new products forbid'),
  isFewest: z.boolean().describe('false where not every way of sharing was tried'),
  separate: z
    .strictObject({ spend: amount, shared: amount, products: z.array(z.string()) })
    .nullable()
    .describe('least money for packs and water with a mix for each feed, and with these mixes; null where not sought'),
  lookFor,
  failures: z.array(z.strictObject({ feed: z.string(), conflict })),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
  proof,
});
