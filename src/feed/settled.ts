import type { Verdict } from '../../solver/index.js';
import type { EcStanding } from './ec-linearisation.js';
import type { NearAsked } from './near.js';

/** What was asked of the solver together with what it answered. */
export type Settled =
  | FeedSettled
  | PlanSettled
  | SharedSettled
  | FewSettled
  | CurveSettled
  | ReachSettled
  | PurchaseSettled
  | FewestSettled;

/** The cheapest, lightest or closest feed within its limits. */
export interface FeedSettled {
  question: 'feed';
  goal: FeedGoal;
  /** What a cost is counted in: `EUR/L`, `g/L`. */
  unit: string;
  /** Null where the EC cap holds nothing back. */
  ec: EcStanding | null;
  /** Goal after goal, each without giving up the one before; the last is the first that was not proved. */
  stages: readonly Stage[];
}

/** The cheapest mix near its aims, with limits moved in so that cans keep them, and the fewest products for hardly more. */
export interface PlanSettled extends Omit<FeedSettled, 'question'> {
  question: 'plan';
  near: NearAsked;
  /** What was answered to the same a little nearer; null where nearer was not asked for. */
  nearer: FeedSettled | FewSettled | null;
  /** The widths of `nearer`. */
  nearerAt: NearAsked | null;
  /** True where limits were moved in. */
  movedIn: boolean;
  /** Where at most so many products were asked for: over every choice of so many. `stages` are those of the choice that was made. */
  few: Pick<FewSettled, 'atMost' | 'choice'> | null;
  /** With at most so much cost, in `unit`, the fewest products that were found, with the search for fewer; null where not sought. */
  fewest: { items: number; mostCost: number; branches: Branches } | null;
}

/** A search by branches: what each program of it was answered, and whether none was left unasked. */
export interface Branches {
  answers: readonly Verdict['verdict'][];
  ended: boolean;
}

/** The cheapest mix that, with water added, keeps the limits of several feeds, each about as near its aims as by itself. */
export interface SharedSettled extends Omit<FeedSettled, 'question'> {
  question: 'shared';
  /** Litres of the mix in a litre of each. */
  feeds: readonly { name: string; share: number }[];
  /** How many times as far from its aims each may be as with a mix of its own. */
  stretch: number;
  movedIn: boolean;
  fewest: PlanSettled['fewest'];
}

/** The same with at most so many products. */
export interface FewSettled extends Omit<FeedSettled, 'question'> {
  question: 'at most';
  atMost: number;
  /** Over every choice of so many products; `stages` are those of the choice that was made, empty where there is none. */
  choice: readonly Stage[];
  /** Where no choice was found: what was answered with any number of products. */
  any: FeedSettled | null;
}

/** Feeds of several widths, each with what it was settled by; of no width between them is anything said. */
export interface CurveSettled {
  question: 'curve';
  unit: string;
  points: readonly { near: number; settled: Settled }[];
}

/** How far each element can be moved; `whole` tells whether all limits can be kept together. */
export interface ReachSettled {
  question: 'reach';
  whole: Verdict;
  ends: readonly Verdict[];
}

/** The least money for whole packs over a horizon. */
export interface PurchaseSettled {
  question: 'purchase';
  currency: string;
  weeks: number;
  /** What it was chosen for; of the fewest new products, what a search for fewer ended with: null where fewer than none would be. */
  way:
    | { kind: 'cheapest' }
    | { kind: 'simplest'; products: number; fewer: PurchaseAnswer | null }
    | { kind: 'nearest'; mostMoney: number };
  /** Times the usual widths around its aims within which every feed is held; null where limits alone hold. */
  near: number | null;
  /** The feeds of each mix, where several feeds are made of one mix by dilution. */
  mixes?: readonly (readonly string[])[];
  answer: PurchaseAnswer;
  /** Feeds that these packs give no blend under the EC cap for, by the full model. */
  overCap: readonly string[];
  /** Feeds whose EC cap, as a straight line, may have hidden something cheaper; null where it can't have. */
  reserve: { feeds: readonly string[]; leastWithoutCap: number | null } | null;
}

/** The fewest products to buy, and the least money with so few. */
export interface FewestSettled {
  question: 'fewest products';
  currency: string;
  /** How many feeds they serve. */
  feeds: number;
  products: readonly string[];
  /** Money for their packs and for water. */
  spend: number;
  /** What a search for the number alone ended with; null where the purchase itself shows that fewer will not do. */
  number: PurchaseFound | null;
  purchase: PurchaseFound;
  /** Feeds that these packs give no blend under the EC cap for, by the full model. */
  overCap: readonly string[];
}

/** What a search for whole packs ended with. */
export type PurchaseAnswer =
  | PurchaseFound
  | { found: false; none: true; byArithmetic: boolean; engine: string }
  | { found: false; none: false; stopped: Stop };

/** What ended a search before it was finished: its work was spent, its seconds, those seconds while labels were read; or rounding. */
export type Stop =
  | { by: 'work' }
  | { by: 'time' }
  | { by: 'labels'; read: number; of: number }
  | { by: 'rounding'; why: string };

/** Packs that a search found, and the bound below which there are none. */
export interface PurchaseFound {
  found: true;
  objective: number;
  bound: number;
  gap: number;
  violation: number;
  engine: string;
  /** Null: the search was not finished. */
  boundBy: 'multipliers' | 'cases' | 'search' | null;
}

export type FeedGoal = 'cheapest' | 'lightest' | 'closest';

/** One goal of a search with the solver's verdict on it. */
export interface Stage {
  goal: 'largest miss' | 'sum of misses' | 'cost';
  verdict: Verdict;
}

/** What was found and the bound below which there is nothing; all null where there is no answer. */
export interface ProofFigures {
  found: number | null;
  bound: number | null;
  gap: number | null;
  violation: number | null;
}

export interface ProofStage {
  goal: Stage['goal'];
  found: number;
  bound: number;
  gap: number;
  violation: number;
  engine: string;
}
