import type { Slip, ToldSlips, Way } from '../advice/slips/types.js';
import type { Water } from '../label/product.js';
import { litres, type Litres } from '../units/index.js';
import type { Batch } from './batch.js';

/** What a grower said he did, and the batch that each way of it makes. */
export interface Told extends ToldSlips {
  ways: readonly ToldWay[];
}

export interface ToldWay extends Way {
  /** The batch as it then is: items in their places, those forgotten with nothing. */
  batch: Batch;
}

/** A batch as it is if it was made as told. @param waters what the ids of told waters stand for */
export function toldOf(batch: Batch, { text, ways }: ToldSlips, waters: readonly Water[]): Told {
  return { text, ways: ways.map((way) => ({ ...way, batch: way.slips.reduce(slipped(waters), batch) })) };
}

const slipped =
  (waters: readonly Water[]) =>
  (batch: Batch, slip: Slip): Batch => {
    switch (slip.kind) {
      case 'item':
        return {
          ...batch,
          items: batch.items.map((item, i) =>
            i === slip.item ? { ...item, planned: item.planned * slip.factor, sd: item.sd * slip.factor } : item,
          ),
        };
      case 'litres':
        return { ...batch, litres: litres(slip.litres) };
      case 'water':
        return { ...batch, waters: [{ water: waters.find(({ id }) => id === slip.id)!, share: 1 }] };
      case 'topping': {
        const full = batch.items.at(-1)?.full ?? 1;
        const items = batch.items.map((item) => ({ ...item, full: item.full / full }));
        return { ...batch, litres: (batch.litres * full) as Litres, items };
      }
      default:
        return slip satisfies never;
    }
  };

/** Whether a way is the plan itself. */
export const isPlan = ({ slips }: Way): boolean => slips.length === 0;

/** What a grower says of his own doing is so in nine of ten (judgement); the pen may know better. */
export const SAID = 0.9;
