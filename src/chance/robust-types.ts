import type { DosePlan, PlanOptions } from '../dose/plan-types.js';
import type { Sureness } from './sure.js';

/** Doses that keep every limit in a wanted share of batches, or that come nearest to it. */
export interface SureDoses {
  /** `short`: no doses found that reach the share; `no feed`: not even an exact scale could keep the limits. */
  status: 'reached' | 'short' | 'no feed';
  /** Null only without a feed. */
  plan: DosePlan | null;
  wanted: number;
  /** Share of batches of the plan. */
  share: number;
  sureness: Sureness | null;
  /** Standard deviations by which the limits were moved in; 0: the plain doses do. */
  k: number;
  /** Over the plain doses; null where nothing has a price. */
  extraCostPerLitre: number | null;
  /** Largest relative miss from an aim, less that of the plain doses. */
  extraMiss: number;
  /** Where it falls short: what else would help, each tried. */
  remedies: SureRemedy[];
  /** What it comes to and what it costs. */
  sentence: string;
}

export interface SureDosesOptions extends PlanOptions {
  seed?: number;
  /** False: no remedies are tried where it falls short. */
  remedies?: boolean;
}

/** What would raise the share, with the share that it was found to reach. */
export interface SureRemedy {
  change: string;
  share: number;
}
