import type { Nutrient } from '../chemistry/nutrients.js';
import type { Litres } from '../units/index.js';
import type { GivenAsked } from '../blend/given.js';
import type { GradedMiss } from '../blend/nearest-doses.js';
import type { GivenMade } from '../blend/given-types.js';
import type { Caution } from '../can/cautions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { FeedRequest } from '../feed/request.js';
import type { Proof, Stop } from '../feed/proof.js';
import type { ConflictLine, FeedHeader, Miss, Mix } from '../feed/results.js';

/** One feed that the purchase has to serve, and how much of it is mixed. The request's own shelf plays no part. */
export interface PlannedFeed {
  request: FeedRequest;
  weeklyLitres: Litres;
  /** Water a week where other feeds are made of it by dilution, theirs with it. */
  weeklyWater?: Litres;
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
  /** False where the market's prices are left out: each pack counts one, and its product costs nobody knows what. */
  isPriced?: boolean;
  /** At most this many bought products that do not stand on the shelf yet. */
  atMost?: number;
  /** Most money for packs. */
  budget?: number;
  /** Ids that may not be bought, and ids of which at least one pack must be. */
  ban?: readonly string[];
  need?: readonly string[];
  /** Times the usual widths around the aims within which every feed is held; 1 where nothing else is asked. */
  factor?: number;
  /** What the feeds are measured with, and how sure they are to be; absent: the feeds are not made out as doses. */
  hands?: Pick<GivenAsked, 'kit' | 'known' | 'solubility' | 'sure'>;
}

/** What a purchase is chosen for: the least money; of the fewest new products the least; or feeds as near as twice the least money brings them. */
export type Way = 'cheapest' | 'simplest' | 'nearest';

/** How the search may go about it. */
export interface PurchaseOptions {
  /** What to look for; the cheapest, the simplest and the nearest by default. The cheapest always is. */
  ways?: readonly Way[];
  /** False: what stands beside the options is left out, which spares searches. */
  beside?: boolean;
  /** How many times the usual work each search may take; 1 by default. Counted in steps, so that the answer is the same on a busy machine. */
  effort?: number;
  /** Seconds left for all that is done, asked before each step; absent: no limit. */
  secondsLeft?: () => number;
  /** Told what is being sought. */
  onStep?: (step: PurchaseStep) => void;
}

/** What a purchase is seeking: the best, another option, what stands beside them, or why there is none; or what could stand in for a product. */
export type PurchaseStep =
  | { kind: 'near' }
  | { kind: 'best' }
  | { kind: 'way'; way: Way }
  | { kind: 'doses' }
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
  /** Of an invented product: it stands for any with such a label. */
  isInvented: boolean;
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
  /** How near, how sure and as which doses it is given; null where nobody said what it is measured with, or it can't be. */
  given: GivenMade['given'] | null;
  /** Limits that hurt or that plants need and that it misses as the kit measures it out; empty where nobody said what measures it. */
  missed: GradedMiss[];
  /** True where the kit gives no feed at all from these packs: the amounts are those of the mix before it is measured out. */
  isLost: boolean;
}

/** Whether doses of the kit keep what hurts and what plants need in every feed. */
export const keepsLimits = ({ feeds }: Pick<PurchaseOption, 'feeds'>): boolean =>
  feeds.every(({ missed, isLost }) => missed.length === 0 && !isLost);

/** One way to buy. */
export interface PurchaseOption {
  /** What it is chosen for; one purchase may be the best in several ways. */
  ways: [Way, ...Way[]];
  packs: Pack[];
  /** Money for packs. */
  spend: number;
  /** Money for water over the horizon. */
  waterCost: number;
  /** spend + waterCost: what the search makes least. */
  total: number;
  feeds: OptionFeed[];
  stock: StockLine[];
  /** Money a year for what the feeds use, once packs are bought as they run out; water with it. Null where a price is unknown. */
  laterYears: number | null;
  /** Times the usual widths around their aims within which these packs hold the feeds; null where limits alone do. */
  factor: number | null;
  proof: Proof;
}

/** The label to look for in place of an invented product: every label within these ranges serves as well. */
export interface LookFor {
  /** Of the invented product. */
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  /** In the order N, P (as P2O5), K (as K2O), Ca, Mg; those that the product holds. */
  figures: LookedFor[];
  /** Least share of its nitrogen that is nitrate; null where it matters not or is not said. */
  nitrate: number | null;
  traces: 'none' | 'either' | 'needed';
}

/** One figure of a label, % w/w of a powder, % w/v of a liquid. */
export interface LookedFor {
  figure: Nutrient;
  least: number;
  now: number;
  most: number;
}

/** An option before it is proved. */
export interface Unproved {
  option: Omit<PurchaseOption, 'proof' | 'ways' | 'factor'>;
  /** Feeds that these packs give no blend under the EC cap for. */
  overCap: string[];
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
  /** What was not finished: the proof of the best (then no others were sought), the way to another, or what stands beside them. */
  | { kind: 'not finished'; at: 'best' | 'more' | 'beside'; stopped: Stop }
  | LeftOutNote
  | OtherCurrencyNote;

/** The prices of the catalog are in another currency than the bench's, and no sum may mix the two. */
export interface OtherCurrencyNote {
  kind: 'other currency';
  of: string;
  bench: string;
}

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
  /** Those first whose doses keep what hurts and what plants need; of those alike the cheapest first. */
  options: [PurchaseOption, ...PurchaseOption[]];
  /** Cost and products when one more new product may be bought than `atMost` allows. */
  oneMoreAllowed: { spend: number; products: string[] } | null;
  /** Labels to look for in place of the invented products of the first option. */
  lookFor: LookFor[];
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
