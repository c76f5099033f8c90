import type { Wishes } from '../desk/wishes.js';
import type { Problem } from '../problem.js';
import type { LineOnPage } from '../report/sheet-page/lines.js';
import type { EcSum } from './work/ec-ions.js';
import type { SumLine } from './work/sums.js';
import type { Fact } from '../report/sheet.js';

/** A mixing sheet to work by, step by step: every text as `sheet` prints it. */
export interface SinkView {
  title: string;
  plants: string;
  /** `4 L`; empty where there is nothing to mix. */
  litres: string;
  alert: string[];
  facts: Fact[];
  /** The unit that the pen shows, and whether mS/cm stands beside it. */
  pen: string;
  twoScales: boolean;
  lines: (LineOnPage & { sum: StepSum | null })[];
  tolerance: string;
  keeps: string;
  notes: string[];
  cautions: string[];
  /** Products by the number of their step. */
  products: { step: number; id: string; name: string }[];
  /** How `meter` and `journal` are told of this batch: by the code of its sheet. Null for a mix that every feed is diluted from: it has no limits of its own. */
  judgedBy: Wishes | null;
  warnings: readonly Problem[];
}

/** What stands behind the figures of a step: what is in the can by then, and the reading ion by ion. */
export interface StepSum {
  inCan: SumLine[];
  ec: EcSum;
}
