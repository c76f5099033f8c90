import type { Keeping } from '../can/keeping.js';
import type { Sureness } from '../chance/sure.js';
import type { Source } from '../chance/varying.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { DoseOffer } from '../dose/findings.js';
import type { DosePlan } from '../dose/plan-types.js';
import type { Limit, Miss } from '../feed/limits.js';
import type { NearAsked } from '../feed/near.js';
import type { Change } from './changes.js';
import type { Doubts } from './doubted.js';
import type { GradedMiss } from './nearest-doses.js';
import type { BlendCannot, BlendMade, BlendOpen } from '../feed/results.js';

/** The feed that is given: doses of the kit; or why there is none, with the doses of the nearest there is. */
export type GivenResult = GivenMade | GivenNone;

/** A feed, near its aims, sure and thrifty; the mix is what the doses really deliver. */
export interface GivenMade extends BlendMade {
  given: Given;
}

/** No feed: the nearest there is instead, and what would make one possible. */
export type GivenNone = (BlendCannot | BlendOpen) & { given: NoneGiven };

export interface NoneGiven {
  /** The nearest measured out; null where nothing can be given that would not hurt. */
  plan: DosePlan | null;
  /** What those doses miss, or where there are none the nearest mix: what hurts, then what plants need, then conventions. */
  misses: GradedMiss[];
  /** Each planned again and found to do, the best first. */
  changes: Change[];
  assumed: Assumed;
}

export interface Given {
  plan: DosePlan;
  /** How it can be made although the kit alone could not; null where the kit can. */
  wayOut: WayOut | null;
  /** How long a can of it may stand. */
  keeps: Keeping;
  /** Products in it that cannot be what both their name and their row say; absent where there is none. */
  doubts?: Doubts;
  near: Near;
  sure: Sure;
  /** Leasts that only convention stands behind and that this feed does not keep. */
  custom: Miss[];
  /** Cost per litre of the mix before it was measured out. */
  idealCostPerLitre: number;
  /** What giving up nearness would save, and what going all the way to the aims would cost. */
  beside: { bare: Beside | null; closest: Beside | null; own: Beside };
  /** Litres of this feed in a year; null where nobody said how much is used. */
  litresPerYear: number | null;
  assumed: Assumed;
}

/** A feed that the kit by itself cannot make, and how the doses of this one are had all the same. */
export interface WayOut {
  way: Extract<DoseOffer, { kind: 'pen' | 'item stock' | 'batch' }>;
  /** Whether a pen steers the doses that no bottle holds. */
  byPen: boolean;
  /** What the kit alone comes to: what it cannot measure, what would be missed, and how many cans would keep the limits. */
  without: { unmeasured: string[]; weigh: ToWeigh[]; misses: Miss[]; share: number };
  /** What would do as well. */
  others: DoseOffer[];
}

/** A powder whose level spoons are to be weighed: id and spoon. */
export interface ToWeigh {
  product: string;
  spoon: string;
}

/** What was taken for granted because nobody said it. */
export interface Assumed {
  kit: boolean;
  batch: boolean;
}

/** How near the plan lies to its aims. */
export interface Near {
  asked: NearAsked;
  /** Times its aim (or its aim divided by it) that a main and a trace element may be. */
  main: number;
  trace: number;
  /** Elements farther from their aims than anybody asked, the farthest first; why, where the limits tell. */
  farthest: { element: Nutrient; mgPerLitre: number; aim: number }[];
  /** Limits that keep the shelf from a nearer mix; empty where it is as near as was asked. */
  stoppedBy: readonly Limit[];
  /** At most so many products were asked for; null for any number. */
  atMost: number | null;
}

/** Cans of a hundred that keep the limits, by a count. */
export interface Sure {
  share: number;
  wanted: number;
  sureness: Sureness;
  /** Where it falls short: the source without which most cans would hold, and what else would help, each tried. */
  short: { blame: { source: Source; shareWithout: number } | null; remedies: SureRemedy[] } | null;
}

/** What would raise the share, with the share that it was found to reach. */
export type SureRemedy = { share: number } & (
  | { kind: 'batch'; litres: number }
  | { kind: 'scale'; stepGrams: number }
  /** Ten level spoons of a powder weighed, whatever they weigh. */
  | ({ kind: 'weigh' } & ToWeigh)
);

/** A feed in four figures, to be held against another. */
export interface Beside {
  costPerLitre: number;
  /** The element farthest from its aim, as a share of the aim; null without aims. */
  largestMiss: { element: Nutrient; share: number } | null;
  /** Share of cans that keep the limits, made by the same hands. */
  share: number;
  items: number;
}
