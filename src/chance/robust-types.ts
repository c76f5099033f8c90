import type { DosePlan, PlanOptions } from '../dose/plan-types.js';
import type { Sureness } from './sure.js';
import type { Source } from './varying.js';

/** Doses that keep every limit in a wanted share of batches, the surest that were found, or none at all. */
export type SureDoses = SureEnough | NotSureEnough | NothingSure;

/** The plan keeps every limit in the share that was asked for. */
export interface SureEnough extends CountedDoses {
  status: 'reached';
}

/** No doses were found that reach the share; these are the surest. */
export interface NotSureEnough extends CountedDoses {
  status: 'short';
  /** The source without which most batches would hold; null where no single one tells. */
  blame: { source: Source; shareWithout: number } | null;
  /** What else would help, each tried, the best first. */
  remedies: SureRemedy[];
}

/** Not even an exact scale could keep the limits. */
export interface NothingSure {
  status: 'no feed';
  wanted: number;
}

interface CountedDoses {
  plan: DosePlan;
  wanted: number;
  /** Share of batches of the plan that keep every limit. */
  share: number;
  sureness: Sureness;
  /** Standard deviations by which the limits were tightened; 0: the plain doses do. */
  tightened: number;
  /** The plain doses, which pay no heed to what varies: their cost, and their largest relative deviation from an aim. */
  plain: { costPerLitre: number; largestDeviation: number };
  /** Over the plain doses; null where nothing has a price. */
  extraCostPerLitre: number | null;
  /** Largest relative deviation from an aim, less that of the plain doses. */
  extraDeviation: number;
}

export interface SureDosesOptions extends PlanOptions {
  seed?: number;
  /** False: no remedies are tried where it falls short. */
  remedies?: boolean;
}

/** What would raise the share, with the share that it was found to reach. */
export type SureRemedy = { share: number } & ({ kind: 'batch'; litres: number } | { kind: 'scale'; stepGrams: number });
