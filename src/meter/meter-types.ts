import type { Caution } from '../can/cautions.js';
import type { FeedHeader } from '../feed/results.js';
import { type Batch, type PenUse, plannedLitres } from './batch.js';
import type { ActualLine, Judgement } from './judge.js';
import type { NoRemedy, Remedy } from './remedy.js';
import type { Completion } from './complete-recipe.js';
import type { Elsewhere } from './elsewhere.js';
import type { Way } from '../advice/slips/types.js';
import type { Told } from './told.js';
import type { Verdict } from './verdict.js';

/** What `meter` answers about readings of a can. */
export interface MeterResult extends PlannedBatch {
  status: 'judged';
  verdict: Verdict;
  feed: FeedHeader | null;
  recipe: string | null;
  judgement: Judgement;
  actual: ActualLine[];
  remedy: Remedy | NoRemedy;
  /** What completes the batch, from what was said alone; null where a programme gives a remedy, or nothing certain was said. */
  completion: Completion | null;
  /** Others that can have what these plants cannot, likeliest to be at hand first; empty where nothing is left over. */
  elsewhere: Elsewhere[];
  /** Litres to the brim. */
  capacityLitres: number;
  /** Items whose whole dose moves the pen by less than its error. */
  unseen: string[];
  notes: MeterNote[];
  cautions: Caution[];
}

/** What was to be in the can, and how it was read: what a cause is told with. */
export interface PlannedBatch {
  pen: PenUse;
  /** In mixing order. */
  plan: { id: string; name: string; words: string; amount: number; unit: 'g' | 'mL' }[];
  /** In the can, and that the doses were for. */
  litres: number;
  plannedLitres: number;
  /** The ways that the grower said it may be; empty where he said nothing. */
  told: readonly (Way & { waters: string })[];
}

/** How the question was taken. */
export type MeterNote =
  /** No feed keeps every limit: the nearest one is the plan. */
  | { kind: 'nearest plan' }
  /** Several waters beside a recipe: taken in equal shares. */
  | { kind: 'equal waters' }
  /** Every reading was multiplied by it. */
  | { kind: 'pen factor'; factor: number }
  /** Readings are judged by what good batches of the feed read before. */
  | { kind: 'learned'; batches: number; from: string; to: string }
  | { kind: 'other volume'; plannedLitres: number; litres: number }
  /** What was still to go in after the last reading is taken to go in as planned. */
  | { kind: 'not read to the end' };

export const plannedBatch = (batch: Batch, pen: PenUse, told: Told | null = null): PlannedBatch => ({
  pen,
  plan: batch.items.map(({ product, words, planned }) => ({
    id: product.id,
    name: product.name,
    words,
    amount: planned,
    unit: product.composition.per,
  })),
  litres: batch.litres,
  plannedLitres: plannedLitres(batch),
  told: (told?.ways ?? []).map(({ share, slips, batch: own }) => ({
    share,
    slips,
    waters: own.waters.map(({ water }) => water.name).join(' and '),
  })),
});
