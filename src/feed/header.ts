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
  batchLitres: Litres | null;
  currency: string;
}

/** A feed that is none: the plants rest, and get plain water. */
export interface UnfedFeed {
  status: 'unfed';
  feed: FeedHeader;
  rest: Unfed;
}
