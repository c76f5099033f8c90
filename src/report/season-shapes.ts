import * as z from 'zod';
import { amount, hazardLine, maybe } from './shapes.js';
import { storageShape, support } from './storage-shapes.js';

const unit = z.enum(['g', 'mL']);
const day = z.string().regex(/^\d{4}-\d{2}-\d{2}$/);
const week = z.int().min(1).describe('counted from 1');
const phase = z.enum(['growth', 'bloom', 'rest']);
const rest = z.strictObject({
  from: z.string(),
  to: z.string(),
  evidence: z.string(),
  source: z.string(),
  notes: z.string(),
});

const state = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('fed'),
    phase,
    strength: z.string(),
    mix: z.int().min(0).describe('place in mixes'),
    share: amount.describe('litres of the mix in a litre of the feed'),
  }),
  z.strictObject({ kind: z.literal('rest'), rest }),
  z.strictObject({ kind: z.literal('other'), feeds: z.array(z.string()) }),
  z.strictObject({ kind: z.literal('none'), why: z.enum(['asked', 'no doses']) }),
]);

const feed = z.strictObject({
  name: z.string(),
  plants: z.string(),
  medium: z.string(),
  weeklyLitres: amount,
  pots: z.strictObject({
    pots: maybe,
    potLitres: maybe,
    wateringLitres: maybe.describe('of all pots'),
    wateringsAWeek: maybe,
    weeklyAssumed: z.boolean(),
  }),
  spans: z.array(
    z.strictObject({ week, weeks: z.int().min(1), from: day, to: day, state, litres: amount, cost: amount }),
  ),
  litres: amount,
  cost: amount,
  flush: z.strictObject({
    everyWeeks: z.number(),
    potVolumes: maybe,
    litresPerPot: maybe,
    litres: maybe.describe('for all pots'),
    weeks: z.array(week),
    support,
  }),
});

const mix = z.strictObject({
  feeds: z.array(
    z.strictObject({
      name: z.string(),
      phase,
      strength: z.string(),
      parts: z.strictObject({ mix: z.number(), water: z.number(), share: z.number(), off: z.number() }),
      litres: amount,
    }),
  ),
  batchLitres: amount,
  items: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      unit,
      perLitre: amount,
      inBatch: z.string(),
      isByPen: z.boolean(),
    }),
  ),
  waters: z.array(z.strictObject({ id: z.string(), share: amount })),
  costPerLitre: amount,
  nitrogen: amount.describe('mg/L'),
  ammoniumAndUrea: maybe.describe('share of its nitrogen'),
  ecMSPerCm: amount,
  isKept: z.boolean().describe('false where a limit that hurts or that plants need is missed'),
  sure: amount.describe('share of cans that keep every limit'),
  litres: amount,
  weeks: z.int().min(0),
});

const dated = { day, everyWeeks: z.int().min(1), times: z.int().min(1) };
const event = z.discriminatedUnion('kind', [
  z.strictObject({
    kind: z.literal('mix'),
    ...dated,
    mix: z.int().min(0),
    litres: amount,
    perFeed: z.array(z.strictObject({ name: z.string(), litres: amount })),
  }),
  z.strictObject({ kind: z.literal('flush'), ...dated, feed: z.string() }),
  z.strictObject({ kind: z.literal('order'), ...dated, order: z.int().min(0).describe('place in orders') }),
  z.strictObject({ kind: z.literal('rest'), ...dated, feed: z.string(), rest: rest.nullable() }),
]);

/** What `season` prints: amounts in g or mL, money in the currency of the bench. */
export const seasonShape = z.strictObject({
  schema: z.literal('velamen.season/1'),
  status: z.enum(['planned', 'short']),
  bench: z.string(),
  from: day,
  to: day,
  weeks: z.int(),
  currency: z.string(),
  climate: z.strictObject({
    hemisphere: z.enum(['north', 'south']),
    hemisphereBy: z.enum(['said', 'light', 'temperature', 'assumed']),
    months: z.array(
      z.strictObject({
        month: z.int().min(1).max(12),
        light: maybe,
        temperatureC: maybe,
        share: maybe.describe('of the brightest month'),
        isRest: z.boolean(),
        why: z.array(z.enum(['season', 'dim', 'cool'])),
      }),
    ),
    isOwn: z.boolean(),
  }),
  feeds: z.array(feed),
  mixes: z.array(mix),
  months: z.array(
    z.strictObject({
      key: z.string(),
      weeks: z.int(),
      litres: amount,
      cost: amount,
      light: maybe,
      temperatureC: maybe,
      isRest: z.boolean(),
      uses: z.array(z.strictObject({ id: z.string(), amount })),
    }),
  ),
  products: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      unit,
      used: amount,
      onHand: maybe,
      pack: maybe,
      price: maybe.describe('money for one pack'),
      cost: maybe.describe('of what is used'),
      runsOut: z.strictObject({ week, day }).nullable().describe('the week that what is on hand does not reach for'),
      packs: z.int().min(0),
      stock: z.array(amount).nullable().describe('at the start and at the end of each week, orders arrived'),
    }),
  ),
  orders: z.array(
    z.strictObject({
      id: z.string(),
      name: z.string(),
      unit,
      day,
      needed: day,
      week,
      packs: z.int().min(1),
      pack: amount,
      cost: maybe,
      isLate: z.boolean(),
    }),
  ),
  events: z.array(event),
  storage: storageShape,
  litres: amount,
  cost: amount,
  spend: amount,
  leadDays: z.int().min(0),
  notes: z.array(z.string()),
  cautions: z.array(z.string()),
  hazards: z.array(hazardLine),
});
