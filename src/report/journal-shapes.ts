import * as z from 'zod';
import { amount, maybe } from './shapes.js';

const unit = z.enum(['g', 'mL']);
const item = z.strictObject({ id: z.string(), amount, unit, tool: z.string().nullable() });

const draft = {
  date: z.string().describe('YEAR-MONTH-DAY'),
  kind: z.enum(['batch', 'bought', 'counted', 'standard', 'pot', 'undo']),
  feed: z.string(),
  litres: maybe,
  items: z.array(item).describe('used by a batch, bought, or counted as on hand'),
  reading: maybe.describe(
    'mS/cm at 25 °C: of the full can; of a standard as the pen shows it; of what runs out of a pot',
  ),
  expected: maybe.describe('mS/cm: of the can by its labels; of a standard; of what a pot is fed'),
  low: maybe.describe('low to high: nine of ten right batches, as told on that day'),
  high: maybe,
  steps: z
    .array(z.strictObject({ step: z.int(), mSPerCm: amount }))
    .describe('readings on the way, by step of the sheet'),
  penFactor: maybe,
  temperature: maybe.describe('°C'),
  pH: maybe,
  cost: maybe,
  currency: z.string(),
  pot: z.string(),
  medium: z.string(),
  of: maybe.describe('the entry that is undone'),
  waters: z.array(z.strictObject({ id: z.string(), share: amount })),
  strength: maybe.describe('share of full strength'),
  sheet: z.string(),
  note: z.string(),
};

const entry = z.strictObject({ ...draft, entry: z.int().min(1), line: z.int().min(1), isLive: z.boolean() });
const size = z.strictObject({ entries: z.int(), undone: z.int(), last: z.int() });

const change = z.strictObject({
  id: z.string(),
  unit,
  counted: maybe.describe('as counted last; null: never'),
  on: z.string().nullable().describe('the day it was counted'),
  used: amount.describe('since then, or since the first line'),
  bought: amount,
  batches: z.int(),
});

const stockLine = z.strictObject({
  id: z.string(),
  name: z.string(),
  unit,
  onHand: maybe.describe('as the shelf says'),
  change: change.nullable(),
  left: maybe.describe('null: nobody said how much there was; below zero: more was used than was there'),
});

const pot = {
  pot: z.string(),
  feed: z.string(),
  medium: z.string(),
  runOff: amount.describe('mS/cm at 25 °C, the last'),
  fed: maybe.describe('mS/cm of what it is fed'),
  buildUp: maybe.describe('times what it is fed'),
  standing: z.enum(['go on', 'look again', 'flush', 'not known']),
  goOnAt: maybe.describe('mS/cm of run-off at which feeding goes on'),
  holds: maybe.describe('litres that the empty pot holds'),
  potVolumes: maybe.describe('plain water for a flush, in times of that'),
  flushLitres: maybe,
  support: z.strictObject({ source: z.string(), evidence: z.string(), notes: z.string() }).nullable(),
  sentence: z.string(),
};

const scale = maybe.describe('ppm per mS/cm of the pen; null: it shows EC. Readings here are in mS/cm');

/** What `journal add` and `journal undo` print. */
export const journalEntryShape = z.strictObject({
  schema: z.literal('velamen.journal-entry/1'),
  status: z.enum(['added', 'undone']),
  entry: z.int().min(1),
  file: z.string(),
  draft: z.strictObject(draft),
  stock: z.array(stockLine).describe('of the products that it is about, after it'),
  within: z.boolean().nullable().describe('whether the reading lies within low to high'),
  undone: z.strictObject({ ...draft, entry: z.int().min(1), line: z.int().min(1) }).nullable(),
  stands: z.strictObject(pot).nullable().describe('the pot that was read'),
  scale,
});

const point = z.strictObject({
  entry: z.int(),
  date: z.string(),
  reading: amount,
  expected: maybe,
  low: maybe,
  high: maybe,
});

const drift = z
  .strictObject({
    verdict: z.enum(['none', 'pen', 'jars', 'either']),
    none: amount,
    pen: amount,
    jars: amount,
    feed: z.string().nullable().describe('whose jars moved; null: of all feeds, the pen, or nothing'),
    share: z.number().describe('by which readings moved'),
    sd: amount,
    since: z.strictObject({ entry: z.int(), date: z.string() }).nullable(),
    standards: z.int().describe('standards read since then'),
    sentence: z.string(),
  })
  .describe('whether readings moved, and what moved: shares, given the readings; they sum to 1');

/** What `journal show` prints. */
export const journalShape = z.strictObject({
  schema: z.literal('velamen.journal/1'),
  status: z.literal('shown'),
  file: z.string(),
  size,
  feed: z.string().nullable(),
  drift,
  scale,
  entries: z.array(entry).describe('the newest, in their order'),
  feeds: z.array(z.strictObject({ feed: z.string(), batches: z.int(), litres: amount, points: z.array(point) })),
});

/** What `journal stock` prints. */
export const journalStockShape = z.strictObject({
  schema: z.literal('velamen.journal-stock/1'),
  status: z.literal('counted'),
  file: z.string(),
  shelf: z.string(),
  size,
  lines: z.array(stockLine),
  others: z.array(change).describe('products of the journal that are not on the shelf'),
});

const costLine = z.strictObject({
  month: z.string(),
  feed: z.string(),
  batches: z.int(),
  litres: amount,
  cost: amount.describe('of the batches whose cost is known'),
  unknown: z.int().describe('batches whose cost nobody knows'),
});

/** What `journal cost` prints. */
export const journalCostShape = z.strictObject({
  schema: z.literal('velamen.journal-cost/1'),
  status: z.literal('summed'),
  file: z.string(),
  currencies: z.array(
    z.strictObject({
      currency: z.string(),
      lines: z.array(costLine),
      total: costLine,
      paid: amount.describe('for packs that were bought'),
    }),
  ),
});

/** What `journal pot` prints. */
export const journalPotShape = z.strictObject({
  schema: z.literal('velamen.journal-pot/1'),
  status: z.literal('told'),
  file: z.string(),
  scale,
  pots: z.array(
    z.strictObject({
      ...pot,
      points: z.array(z.strictObject({ entry: z.int(), date: z.string(), runOff: amount, fed: maybe })),
    }),
  ),
});
