import type { Caution } from '../can/cautions.js';
import type { CloudingLine } from '../can/clouding.js';
import type { FeedHeader } from '../feed/results.js';

/** What `concentrate` answers. */
export interface ConcentrateResult {
  schema: 'velamen.concentrate/1';
  /** `too strong`: no split into bottles holds at this ratio, `largest` says which does. `nothing to dissolve`: no feed, or an empty one. */
  status: 'made' | 'too strong' | 'nothing to dissolve';
  feed: FeedHeader | null;
  recipe: string | null;
  /** One part of each stock in so many parts of feed. */
  ratio: number;
  /** mL of each stock in a litre of feed. */
  dosePerLitre: number;
  jugMillilitres: number;
  coldestCelsius: number;
  /** The water for the bottles, in words. */
  fill: string;
  tanks: TankSheet[];
  /** What belongs into no stock bottle, with its amount in a litre of feed. */
  apart: ApartItem[];
  /** How the finished can stands. */
  can: { pH: number; precipitation: CloudingLine[] } | null;
  largest: LargestLine[];
  /** Where it is too strong: why. */
  why: string[];
  use: string[];
  lasts: { feedLitres: number; batches: number | null; weeks: number | null } | null;
  keeping: string[];
  jarTest: readonly string[];
  notes: string[];
  cautions: Caution[];
}

export interface TankSheet {
  /** `A` (the calcium bottle) or `B`; `stock` where there is one only. */
  name: string;
  /** In the order in which they are dissolved. */
  items: TankItem[];
  pH: number;
  /** The fullest of its salts, 1 = the limit (a tenth below saturation). */
  fullest: { what: string; share: number } | null;
  precipitation: CloudingLine[];
  steps: string[];
  label: string[];
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
  why: string;
}

/** The strongest stock with so many bottles. */
export interface LargestLine {
  tanks: 1 | 2;
  /** Null where not even 1:2 holds. Rounded down, so that it holds. */
  ratio: number | null;
  dosePerLitre: number | null;
  limitedBy: string[];
}
