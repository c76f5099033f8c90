import type { Litres } from '../units/index.js';
import type { Caution } from '../can/cautions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import type { Proof, Stop } from '../feed/proof.js';
import type { ConflictLine, FeedHeader, Miss, Mix } from '../feed/results.js';

/** One feed that the purchase has to serve, and how much of it is mixed. The request's own shelf plays no part. */
export interface PlannedFeed {
  request: FeedRequest;
  weeklyLitres: Litres;
}

/** What is wanted of a purchase. */
export interface PurchaseRequest {
  feeds: PlannedFeed[];
  /** Weeks to be provided for. */
  weeks: number;
  /** On hand: free, used first. An unknown stock is no limit. */
  shelf: ClosedProduct[];
  /** For sale: rows with a pack and a price. */
  market: ClosedProduct[];
  /** What the market is called in the report. */
  marketName: string;
  currency: string;
  /** At most this many bought products that do not stand on the shelf yet. */
  atMost?: number;
  /** Most money for packs. */
  budget?: number;
  /** Ids that may not be bought, and ids of which at least one pack must be. */
  ban?: readonly string[];
  need?: readonly string[];
}

/** How the search may go about it. */
export interface PurchaseOptions {
  /** How many options to list; 5 by default. */
  options?: number;
  /** How many times the usual work each search may take; 1 by default. Counted in steps, so that the answer is the same on a busy machine. */
  effort?: number;
  /** Seconds left for all that is done, asked before each step; absent: no limit. */
  secondsLeft?: () => number;
  /** Told what is being sought. */
  onStep?: (step: PurchaseStep) => void;
}

/** What a purchase is seeking: the best, another option, what stands beside them, or why there is none; or what could stand in for a product. */
export type PurchaseStep =
  | { kind: 'best' }
  | { kind: 'option'; number: number; of: number }
  | { kind: 'beside' }
  | { kind: 'alone'; feed: string }
  | { kind: 'fewest' }
  | { kind: 'why not' }
  | { kind: 'substitutes' };

/** Packs of one product. */
export interface Pack {
  id: string;
  name: string;
  count: number;
  /** Money for one pack. */
  price: number;
  /** g or mL in one pack. */
  pack: number;
  unit: 'g' | 'mL';
  /** False for more of what stands on the shelf. */
  isNew: boolean;
}

/** What becomes of one product over the horizon; g or mL. Null: an unknown stock has no end. */
export interface StockLine {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  onHand: number | null;
  bought: number;
  used: number;
  left: number | null;
  /** How long shelf and packs last at this use; null where it is not used or its stock is unknown. */
  months: number | null;
}

/** One feed of an option. */
export interface OptionFeed extends Mix {
  feed: FeedHeader;
  /** Over the horizon. */
  litres: number;
  /** Limits within 2 % of their bound. */
  justMet: Miss[];
  /** Largest miss from an aim in this blend, as a share of the aim. */
  largestMiss: number;
}

/** One way to buy. */
export interface PurchaseOption {
  packs: Pack[];
  /** Money for packs. */
  spend: number;
  /** Money for water over the horizon. */
  waterCost: number;
  /** spend + waterCost: what the search makes least. */
  total: number;
  feeds: OptionFeed[];
  stock: StockLine[];
  /** The least possible largest miss from the aims, over all feeds, that these packs allow. */
  closest: number | null;
  proof: Proof;
}

/** An option before it is proved. */
export interface Unproved {
  option: Omit<PurchaseOption, 'proof'>;
  /** Feeds that these packs give no blend under the EC cap for. */
  overCap: string[];
}

/** What one more product would change. */
export interface Extra {
  id: string;
  name: string;
  /** Money for its pack, beyond the best option. */
  extraSpend: number;
  /** Largest miss from the aims that becomes possible. */
  closest: number;
  /** Value of what a litre holds, averaged over all litres, with it at hand. */
  costPerLitre: number;
}

/** The joint purchase beside its alternatives. */
export interface Comparison {
  /** Each feed bought for alone, with the whole shelf to itself. Null: not found, or the search was not finished. */
  alone: { feed: string; spend: number | null; products: string[] }[];
  aloneSpend: number | null;
  jointSpend: number;
  /** The fewest bought products that serve all feeds, and the least spend with so few. */
  fewest: { products: string[]; spend: number; proof: Proof } | null;
}

/** What is worth knowing beside a purchase. Products go by id. */
export type PurchaseNote =
  /** The shelf does not say how much is left: taken as enough. */
  | { kind: 'stock unknown'; products: string[] }
  /** A powder on the shelf and a liquid on the market, or the other way: no more is bought. */
  | { kind: 'other form'; products: string[] }
  /** Nothing does beyond the so many options that are listed. */
  | { kind: 'no more options'; listed: number }
  /** What was not finished: the proof of the best (then no others were sought), the way to another, or what stands beside them. */
  | { kind: 'not finished'; at: 'best' | 'more' | 'beside'; stopped: Stop }
  | LeftOutNote;

/** Rows of the market that nobody is to buy unasked. */
export interface LeftOutNote {
  kind: 'left out';
  of: { why: 'no pack or price' | 'acid or alkali' | 'cobalt or nickel'; count: number }[];
}

/** What `buy` answers: ways to buy; why nothing does, by arithmetic or on the search's word; or that the search was not finished. */
export type PurchaseResult = PurchaseMade | PurchaseCannot | PurchaseOpen | PurchaseUnfinished;

interface PurchaseTold {
  currency: string;
  weeks: number;
  plan: { feed: FeedHeader; weeklyLitres: Litres; litres: number }[];
  market: { name: string; products: number };
  notes: PurchaseNote[];
  cautions: Caution[];
  proof: Proof;
}

export interface PurchaseMade extends PurchaseTold {
  status: 'made';
  /** The best first; at least one. */
  options: [PurchaseOption, ...PurchaseOption[]];
  /** What one more product than the best option buys would do; the closest first. */
  extras: Extra[];
  /** Cost and products when one more new product may be bought than `atMost` allows. */
  oneMoreAllowed: { spend: number; products: string[] } | null;
  /** Null where it was not finished. */
  comparison: Comparison | null;
}

/** Proved: nothing that can be bought does. */
export interface PurchaseCannot extends PurchaseTold {
  status: 'cannot';
  failures: Failure[];
}

/** The search ended and found nothing, which no arithmetic proves. */
export interface PurchaseOpen extends PurchaseTold {
  status: 'open';
  failures: Failure[];
}

/** Nothing found yet, and nothing ruled out. */
export interface PurchaseUnfinished extends PurchaseTold {
  status: 'unfinished';
  stopped: Stop;
}

/** Which feed fails, and why. */
export interface Failure {
  feed: string;
  conflict: ConflictLine[];
}
