import * as z from 'zod';
import { wayOut } from './blend-shapes.js';
import { amount, elementLine, hazardLine, item, maybe, misses, proof } from './shapes.js';

/** What `blend --one` prints. */

const share = z.number().min(0).max(1);

export const dilution = z.strictObject({
  feed: z.string(),
  parts: z.strictObject({ mix: z.int().min(1), water: z.int().min(0) }).describe('whole parts of the mix and of water'),
  share: share.describe('litres of the mix in a litre of the feed'),
  off: z.number().describe('share of the wanted strength by which whole parts are off'),
  batchLitres: amount,
  mixLitres: amount.describe('of the mix in that batch'),
  sure: share.describe('of its cans that keep the limits, by a count'),
  ecMSPerCm: amount,
  elements: z.array(elementLine),
  misses,
  custom: z.array(z.string()).describe('leasts that only convention stands behind and that are not reached'),
});

/** Feeds that share no mix, and why. */
export const apart = z.array(
  z.strictObject({
    feeds: z.array(z.string()),
    why: z.enum(['limits', 'cans']),
    says: z.string(),
    proof,
  }),
);

export const oneShape = z.strictObject({
  schema: z.literal('velamen.one/1'),
  status: z.enum(['one', 'several', 'none']).describe('how many mixes feed the bench'),
  currency: z.string(),
  mixes: z.array(
    z.strictObject({
      batchLitres: amount,
      items: z.array(item),
      costPerLitre: amount.describe('of the mix'),
      all: share.describe('of mixes of which every can keeps its limits'),
      stretch: amount.describe('times as far from its aims as with a mix of its own a feed may be, as planned'),
      dilutions: z.array(dilution).describe('the strongest first: that is the mix itself'),
      wayOut: wayOut.optional().describe('how its doses are had although the kit alone cannot'),
      proof,
    }),
  ),
  apart: apart.describe('feeds that could not share one mix'),
  isFewest: z.boolean().describe('false where not every way of sharing was tried'),
  without: z.array(z.string()).describe('feeds that no mix serves, not even one of their own'),
  cost: z.strictObject({ one: amount, separate: amount, over: z.enum(['year', 'can of each']) }),
  separate: z.array(z.strictObject({ feed: z.string(), costPerLitre: amount, share, items: amount })),
  assumed: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
  costOfSharing: maybe.describe('what sharing costs over that time; below 0 it saves'),
});
