import type { Caution } from '../../can/cautions.js';
import type { FeedPlan } from '../feed-plan.js';
import type { WayOut } from '../given-types.js';
import type { FeedRequest } from '../../feed/request.js';
import type { NotShared, SharedPlan } from './shared-plan.js';

export type { NotShared, SharedPlan } from './shared-plan.js';
export type { SharedCan } from './cans.js';
export type { Parts } from './parts.js';

/** The fewest mixes that feed a whole bench. */
export interface OneResult {
  /** `one`: a single mix feeds all; `several`: so few mixes do; `none`: no feed has a mix at all. */
  status: 'one' | 'several' | 'none';
  currency: string;
  mixes: SharedPlan[];
  /** Feeds that could not share one, the smallest groups; each is needed to see that fewer mixes will not do. */
  apart: NotShared[];
  /** False where there were too many feeds to try every way of sharing. */
  isFewest: boolean;
  /** Feeds that no mix serves, not even one of their own. */
  without: string[];
  /** What the mixes cost against a mix for each feed, and over what. */
  cost: { one: number; separate: number; over: 'year' | 'can of each' };
  /** Each feed with a mix of its own. */
  separate: { feed: string; costPerLitre: number; share: number; items: number }[];
  assumed: { kit: boolean; batch: boolean };
  cautions: Caution[];
}

/** A feed with the plan that it has by itself. */
export interface FeedAlone {
  request: FeedRequest;
  plan: FeedPlan;
  /** How its doses are had although the kit alone cannot; null where it can. */
  wayOut: WayOut | null;
  /** Litres in a year; null where nobody says. */
  litresPerYear: number | null;
}
