import type { Caution } from '../can/cautions.js';
import type { FeedHeader } from '../feed/results.js';
import type { Batch, PenUse } from './batch.js';
import type { ActualLine, Judgement } from './judge.js';
import type { Remedy } from './remedy.js';

/** What `meter` answers about readings of a can. */
export interface MeterResult {
  schema: 'velamen.meter/1';
  status: 'judged';
  feed: FeedHeader | null;
  recipe: string | null;
  pen: PenUse;
  /** The plan, in mixing order. */
  plan: { id: string; name: string; words: string; amount: number; unit: 'g' | 'mL' }[];
  litres: number;
  judgement: Judgement;
  actual: ActualLine[];
  /** null where no programme says what the plants want, or the readings are beyond every mistake considered. */
  remedy: (Remedy & { capacityLitres: number }) | null;
  /** Items whose whole dose moves the pen by less than its error. */
  unseen: string[];
  notes: string[];
  cautions: Caution[];
}

export const planLines = (batch: Batch): MeterResult['plan'] =>
  batch.items.map(({ product, words, planned }) => ({
    id: product.id,
    name: product.name,
    words,
    amount: planned,
    unit: product.composition.per,
  }));
