import type { Unfed } from '../programme/programme.js';
import type { Litres } from '../units/index.js';

/** What a result is about, in the grower's words. */
export interface FeedHeader {
  name: string;
  plants: string;
  medium: string;
  phase: string;
  /** `80 %` or `N 90 mg/L`. */
  strength: string;
  /** Factor applied to the programme's bands. */
  strengthFactor: number;
  /** What the phase by itself multiplies every band by, where that is below 1: `25 %` of a rest at 0.45 is 11 % of full growth. */
  phaseFactor?: number;
  batchLitres: Litres | null;
  currency: string;
}

/** A feed that is none: the plants rest, and get plain water. */
export interface UnfedFeed {
  status: 'unfed';
  feed: FeedHeader;
  rest: Unfed;
}
