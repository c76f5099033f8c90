import { type Litres, type MilliSiemensPerCm, scaleBy } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Learned } from '../chance/learned.js';
import type { Measure } from '../dose/measure.js';

/** One item that was to go into the can. */
export interface BatchItem {
  readonly product: ClosedProduct;
  /** g or mL for the whole batch. */
  readonly planned: number;
  /** Standard deviation of what hands deliver, g or mL. */
  readonly sd: number;
  /** `2 level 1/4 US tsp`, `0.62 g` */
  readonly words: string;
  /** True where it is measured by the spoonful, so that a spoon of another size can be taken for the right one. */
  readonly bySpoon: boolean;
  /** What it is measured with; absent where nobody said. */
  readonly tool?: Measure['tool'];
  /** Share of the dose that this tool and powder are off by each time alike, as a standard deviation; it is part of `sd`. */
  readonly lasting?: number;
  /** How full the can is when it goes in: 1 = to the mark. */
  readonly full: number;
}

/** The batch as planned: what should be in the can, in mixing order. Never changed, only replaced: readings expected of it are kept with it. */
export interface Batch {
  readonly items: readonly BatchItem[];
  readonly waters: readonly { readonly water: Water; readonly share: number }[];
  /** Litres in the can: as planned, or as measured. */
  readonly litres: Litres;
  /** Litres that the doses were for, where the can was measured to hold something else. */
  readonly meantFor?: Litres;
  /** Litres to the brim of the largest can there is; absent where nobody said. */
  readonly brimLitres?: Litres;
  /** What good batches have told of these jars, spoons and pen. */
  readonly learned?: Learned;
}

/** Litres that the doses were for. */
export const plannedLitres = ({ litres, meantFor }: Batch): Litres => meantFor ?? litres;

/** Whether the can was measured to hold so much more or less than the doses were for that no filling to a mark explains it. */
export const isMisfilled = (batch: Batch): boolean => Math.abs(batch.litres / plannedLitres(batch) - 1) > MISFILLED;
/** Twice what filling to a mark is off. */
const MISFILLED = 0.04;

/**
 * A moment at which the pen may be dipped: 0 is the water alone, k after the k-th item, `end` after topping up.
 */
export type Moment = number | 'end';

/** A reading as given, and what it says at 25 °C. */
export interface Reading {
  moment: Moment;
  shown: Shown;
  /** At 25 °C, by the scale and the temperature that were said. */
  mSPerCm: MilliSiemensPerCm;
}

/** As the pen showed it: `0.46` in mS/cm, `230` in ppm of the 500 scale. */
export interface Shown {
  /** As written. */
  figure: string;
  unit: string;
  /** ppm per mS/cm; null for a conductivity. */
  scale: number | null;
}

/** How the reading was taken. */
export interface PenUse {
  /** The ppm scale that was said; null for a pen that shows EC. */
  scale: number | null;
  /** °C of the can, where it was measured. */
  temperatureC: number | null;
  /** Whether the pen corrects for temperature; null: not said, taken as yes. */
  compensates: boolean | null;
}

/** Per degree from 25 °C: fits these feeds between 10 and 30 °C within 2.3 % (computed from the model; common practice is the same 2 %). */
export const PER_DEGREE = 0.02;

/** What an uncompensated pen shows, as a share of the EC at 25 °C. */
export const warmth = (celsius: number): number => 1 + PER_DEGREE * (celsius - 25);

/** Litres in the can at a moment. */
export function litresAt(batch: Batch, moment: Moment): Litres {
  if (moment === 'end') return batch.litres;
  return scaleBy(batch.litres, batch.items[Math.max(0, itemsAt(batch, moment) - 1)]?.full ?? 1);
}

/** How many items are in at a moment. */
export function itemsAt(batch: Batch, moment: Moment): number {
  return moment === 'end' ? batch.items.length : Math.min(moment, batch.items.length);
}
