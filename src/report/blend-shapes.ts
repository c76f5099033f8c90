import * as z from 'zod';
import { amount, element, feedHeader, hazardLine, maybe, misses, mix, prices, proof } from './shapes.js';

/** The parts of a feed that is given, as `blend` and `sheet` publish them. */

const share = z.number().min(0).max(1);

export const near = z.strictObject({
  width: amount.describe('times the usual widths; 1 as usual'),
  main: amount.describe('a main element lies between aim / main and aim × main, as planned'),
  trace: amount.describe('the same for a trace element'),
  nitrogenWithin: amount.describe('share of its aim within which total nitrogen lies, as planned'),
  own: z.record(z.string(), amount).describe('elements with a width of their own'),
  without: z.array(element).describe('nothing on the shelf brings them'),
  apart: z.array(element).describe('no mix inside the limits holds them with the others'),
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

export const wayOut = z
  .strictObject({
    kind: z.enum(['pen', 'batch', 'item stock']).describe('item stock: bottles of one item each'),
    says: z.string(),
    bottles: z.array(
      z.strictObject({
        product: z.string(),
        name: z.string(),
        words: z.string().describe('what goes in'),
        amount: amount.describe('g or mL of it'),
        bottleMillilitres: amount.describe('filled up to so much'),
        dose: z.string().describe('what a can takes'),
        doseMillilitres: amount,
      }),
    ),
    without: z.strictObject({
      unmeasured: z.array(z.string()),
      misses: z.array(z.string()),
      share: share.describe('of cans that would keep the limits by the kit alone'),
    }),
    weigh: z.array(z.string()).describe('commands by which level spoons are weighed that nobody knows'),
    others: z.array(z.string()).describe('what would do as well'),
  })
  .nullable()
  .describe('how it is made although the kit alone cannot; null where the kit can');

const keeps = z
  .strictObject({
    hours: amount.describe('that a mixed can may stand closed, cool and dark; 0: at once'),
    says: z.string().describe('whether last week’s jug may be used'),
    causes: z.array(
      z.strictObject({
        why: z.enum(['plain water', 'organic matter', 'unnamed nitrogen', 'urea', 'clouds', 'iron not held', 'light']),
        hours: amount,
        says: z.string(),
        source: z.string(),
        evidence: z.string(),
      }),
    ),
  })
  .describe('how long it keeps, the soonest first');

export const given = {
  near,
  keeps,
  wayOut,
  sure,
  beside,
  costPerYear: maybe.describe('null where nobody says how much is used'),
  custom: z.array(z.string()).describe('leasts that only convention stands behind and that are not reached'),
  assumed: z.array(z.string()),
  doubts: z
    .array(z.string())
    .optional()
    .describe('labels to look at first: a name and a row that contradict each other'),
  idealCostPerLitre: amount.describe('before it was measured out'),
};

const doses = z.strictObject({
  litres: amount,
  items: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      unit: z.enum(['g', 'mL']),
      tool: z.string(),
      words: z.string(),
      amount: amount.describe('for the can'),
      actions: amount,
    }),
  ),
});

/** Where there is no feed. */
export const noneGiven = {
  doses: doses.nullable().describe('of the nearest; null where nothing can be given that would not hurt'),
  lacks: z
    .array(
      z.strictObject({
        limit: z.string(),
        value: z.number(),
        bound: z.number(),
        grade: z.enum(['harm', 'need', 'custom']),
      }),
    )
    .describe('what the doses miss, and how much that matters'),
  changes: z
    .array(
      z.strictObject({
        kind: z.enum(['with', 'nh4', 'strength', 'products']),
        says: z.string(),
        command: z.string(),
        doses,
        share: share.describe('of cans that keep the limits'),
        width: amount.describe('times the usual widths around the aims'),
      }),
    )
    .describe('each planned again and found to do, the best first'),
};

const move = { limit: z.string(), change: z.string(), from: z.number(), to: z.number() };

const blendHead = {
  schema: z.literal('velamen.blend/3'),
  goal: z.enum(['cheapest', 'closest']),
  feed: feedHeader,
};

const blendTold = {
  unknowns: z.array(z.string()),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
  proof,
};

const relaxations = z.array(
  z.strictObject({
    kind: z.enum(['single', 'together', 'strength', 'water', 'products']),
    ...move,
    moves: z.array(z.strictObject(move)).optional(),
  }),
);

const nearest = z
  .strictObject({ ...mix, misses })
  .nullable()
  .describe('the feed that misses its limits least; null where none could be proved');

/** A feed that keeps every limit; `uncertified` where it is not proved to be the best. */
export const blendMadeShape = z.strictObject({
  ...blendHead,
  status: z.enum(['optimal', 'uncertified', 'unfinished']),
  ...mix,
  ...z.strictObject(given).partial().shape,
  ...blendTold,
  prices: prices.optional(),
});

/** Proved: no feed keeps every limit. */
export const blendCannotShape = z.strictObject({
  ...blendHead,
  status: z.literal('infeasible'),
  ...z.strictObject(noneGiven).partial().shape,
  ...blendTold,
  absent: z
    .array(z.strictObject({ element, min: z.number(), broughtBy: z.array(z.string()) }))
    .describe('elements with a floor that nothing on the shelf is known to hold'),
  conflict: z.array(z.strictObject({ limit: z.string(), from: z.string(), because: z.array(z.string()) })),
  irreducible: z.boolean().describe('every limit of the conflict is proved to be needed for it'),
  farkas: z
    .strictObject({
      terms: z.array(
        z.strictObject({ limit: z.string(), end: z.enum(['least', 'most']), bound: z.number(), times: z.number() }),
      ),
      asked: z.number(),
      most: z.number(),
      sentence: z.string(),
    })
    .nullable()
    .describe('the sum of times · limit asks for more than any mix can give'),
  relaxations,
  nearest,
});

/** Neither found nor ruled out. */
const blendOpenShape = z.strictObject({
  ...blendHead,
  status: z.enum(['uncertified', 'unfinished']).describe('unfinished: the search ended before it was done'),
  ...z.strictObject(noneGiven).partial().shape,
  ...blendTold,
  relaxations,
  nearest,
});

/** Plants that rest without any feed. */
export const unfedShape = z.strictObject({
  schema: z.literal('velamen.blend/3'),
  status: z.literal('unfed'),
  feed: feedHeader,
  says: z.string(),
  rest: z.strictObject({
    from: z.string(),
    to: z.string(),
    source: z.string(),
    evidence: z.string(),
    notes: z.string(),
  }),
});

/** A feed that was asked for. */
export const fedShape = z.union([blendMadeShape, blendCannotShape, blendOpenShape]);

export const blendShape = z.union([fedShape, unfedShape]);
