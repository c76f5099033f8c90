import type { Caution } from '../can/cautions.js';
import type { CloudingLine } from '../can/clouding.js';
import type { FeedHeader } from '../feed/results.js';
import type { StockRemark, StockShare } from './concentrate-request.js';
import type { Apartness, StockLimit, StockNote } from './findings.js';

/** What `concentrate` answers. */
export type ConcentrateResult = StocksMade | TooStrong | NothingToDissolve;

/** What every answer tells. */
interface Asked {
  feed: FeedHeader | null;
  recipe: string | null;
  /** One part of each stock in so many parts of feed. */
  ratio: number;
  /** Who chose it: the grower; custom; or, where that would be too strong, what the bottles hold. */
  ratioBy: 'asked' | 'usual' | 'strongest';
  jugMillilitres: number;
  coldestCelsius: number;
  /** The smallest step of the scale, where it is known. */
  scaleStepGrams: number | null;
  /** What the syringe at hand holds; null where there is none. */
  syringeMillilitres: number | null;
  fill: Filling;
  /** What belongs into no stock bottle, with its amount in a litre of feed. */
  apart: ApartItem[];
  /** Where it is one mix for several feeds: how much of the stock each takes. */
  shares?: readonly StockShare[];
  /** How the finished can stands; null for a can without items. */
  can: { pH: number; precipitation: CloudingLine[] } | null;
}

/** The bottles, written out. */
export interface StocksMade extends Asked {
  status: 'made';
  tanks: TankSheet[];
  lasts: Lasts;
  largest: LargestLine[];
  notes: StockNote[];
  cautions: Caution[];
}

/** No split into bottles holds at this ratio. */
export interface TooStrong extends Asked {
  status: 'too strong';
  /** What the split that violates the fewest limits violates, the worst first. */
  violations: StockLimit[];
  /** The strongest that the bottles asked for hold, by a dose that a measure shows; null where not even the weakest stock holds. */
  holds: number | null;
  /** The ratios that hold. */
  largest: LargestLine[];
  notes: StockNote[];
  cautions: Caution[];
}

/** No feed, an empty one, or none of it belongs into a bottle. */
export interface NothingToDissolve extends Asked {
  status: 'nothing to dissolve';
  remark: StockRemark | null;
}

/** The water of the bottles: that of the can by name, or pure water where that of the can is too hard. */
export type Filling = { kind: 'own'; waters: string[] } | { kind: 'pure' };

/** How long a jug lasts; null without a batch or a weekly amount. */
export interface Lasts {
  feedLitres: number;
  batches: number | null;
  weeks: number | null;
}

export interface TankSheet {
  /** `A` (the calcium bottle) or `B`; `stock` where there is one only. */
  name: 'A' | 'B' | 'stock';
  /** In the order in which they are dissolved. */
  items: TankItem[];
  /** True where it holds calcium. */
  calcium: boolean;
  pH: number;
  /** The fullest of its salts, 1 = the limit (a tenth below saturation). */
  fullest: { what: string; share: number } | null;
  precipitation: CloudingLine[];
  /** GHS codes of the solution, by the most that its products may hold. */
  hazards: string[];
  keepsWeeks: number;
}

export interface TankItem {
  id: string;
  name: string;
  gramsPerJug?: number;
  millilitresPerJug?: number;
  /** The same for one litre of stock. */
  perLitre: number;
}

export interface ApartItem {
  id: string;
  name: string;
  gramsPerLitre?: number;
  millilitresPerLitre?: number;
  why: Apartness;
}

/** The strongest stock with so many bottles. */
export interface LargestLine {
  tanks: 1 | 2;
  /** Null where not even 1:2 holds. Rounded down, so that it holds. */
  ratio: number | null;
  limitedBy: StockLimit[];
}
