import * as z from 'zod';
import { amount, element, maybe } from './shapes.js';

/** The parts of a feed that is given, as `blend` and `sheet` publish them. */

const share = z.number().min(0).max(1);

export const near = z.strictObject({
  width: amount.describe('times the usual widths; 1 as usual'),
  main: amount.describe('a main element lies between aim / main and aim × main, as planned'),
  trace: amount.describe('the same for a trace element'),
  nitrogenWithin: amount.describe('share of its aim within which total nitrogen lies, as planned'),
  own: z.record(z.string(), amount).describe('elements with a width of their own'),
  without: z.array(element).describe('nothing on the shelf brings them'),
  farthest: z
    .array(z.strictObject({ element, mgPerLitre: amount, aim: amount }))
    .describe('farther from their aims than usual, the farthest first'),
  stoppedBy: z.array(z.string()).describe('limits that no nearer mix keeps together'),
});

export const sure = z.strictObject({
  share: share.describe('of cans that keep the limits, by a count'),
  wanted: share,
  says: z.array(z.string()),
});

const besideColumn = z
  .strictObject({
    costPerLitre: amount,
    costPerYear: maybe,
    largestMiss: z
      .strictObject({ element, share: amount })
      .nullable()
      .describe('farthest from its aim, as a share of it'),
    share: share.describe('of cans that keep the limits, made by the same hands'),
    items: amount,
  })
  .nullable();

export const beside = z
  .strictObject({ bare: besideColumn, own: besideColumn, closest: besideColumn })
  .describe('the cheapest mix inside the limits; this feed; as near to the aims as can be');

export const given = {
  near,
  sure,
  beside,
  costPerYear: maybe.describe('null where nobody says how much is used'),
  custom: z.array(z.string()).describe('leasts that only convention stands behind and that are not reached'),
  assumed: z.array(z.string()),
  idealCostPerLitre: amount.describe('before it was measured out'),
};
