import type { Caution } from '../can/cautions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { AcidityLine, EcAtTemperature, EcLine, PhLine } from '../can/can-lines.js';
import type { CloudingLine } from '../can/clouding.js';
import type { Meeting } from '../can/meeting.js';
import type { GramsPerLitre, MgPerLitre, MillilitresPerLitre } from '../units/index.js';
import type { Proof } from './proof.js';

export type { AcidityLine, EcAtTemperature, EcLine, PhLine } from '../can/can-lines.js';

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
  batchLitres: number | null;
  currency: string;
}

/** One product in a feed. Exactly one of the two amounts is present. */
export interface Item {
  id: string;
  name: string;
  gramsPerLitre?: GramsPerLitre;
  millilitresPerLitre?: MillilitresPerLitre;
  /** g or mL for the whole batch, null without a batch size. */
  perBatch: number | null;
  /** null when no price is known for it. */
  costPerLitre: number | null;
}

/** A source of water and its share of the can, 0…1. */
export interface WaterShare {
  id: string;
  name: string;
  share: number;
  costPerLitre: number;
}

/** mg/L of one nutrient. `mgPerLitre` counts what labels state; low…high allows for what they leave open. */
export interface ElementLine {
  element: Nutrient;
  mgPerLitre: MgPerLitre;
  low: MgPerLitre;
  high: MgPerLitre;
  min: MgPerLitre | null;
  aim: MgPerLitre | null;
  max: MgPerLitre | null;
}

/** A share, ratio or cap against the mix; value is the left side, or the ratio for `A <= k * B`. */
export interface RuleLine {
  rule: string;
  from: string;
  value: number | null;
  /** The bound the value is judged by, in the same terms. */
  bound: number | null;
  /** Whatever the labels leave open. */
  holds: boolean;
  /** Where it does not hold: true if it might, by what labels leave open. */
  mayHold?: true;
}

/** A whole mix, read out. */
export interface Mix {
  /** In the order in which they go into the can. */
  items: Item[];
  waters: WaterShare[];
  elements: ElementLine[];
  /** Forms as shares of total N, 0…1, null without nitrogen. */
  nitrogenShares: { nitrate: number; ammonium: number; urea: number; other: number; undeclared: number } | null;
  rules: RuleLine[];
  costPerLitre: number;
  costPerBatch: number | null;
  ec: EcLine;
  /** Only where a temperature was asked for. */
  ecAtTemperature?: EcAtTemperature;
  ph: PhLine;
  acidity: AcidityLine;
  /** Whether the can stays clear, mineral by mineral. */
  precipitation: CloudingLine[];
  /** Pairs that stay clear in the can but cloud where they meet undiluted; absent where there are none. */
  meetings?: Meeting[];
}

/** A limit that a mix does not keep. */
export interface Miss {
  limit: string;
  value: number;
  bound: number;
}

/** One limit of a conflict. */
export interface ConflictLine {
  limit: string;
  from: string;
  /** Products that make this limit bite, with what each brings. */
  because: string[];
}

/** One way out of a conflict. */
export interface Relaxation {
  /**
   * `single`: this limit alone; `together`: the least total over all limits, each counted in parts of itself; `strength`: every band
   * scaled; `water`: another water blended in.
   */
  kind: 'single' | 'together' | 'strength' | 'water' | 'products';
  limit: string;
  /** In the grower's units, rounded to the side that works. */
  change: string;
  /** The limit's number before and after; shares from 0 to 1; for several moves 0 and the sum of their relative sizes. */
  from: number;
  to: number;
  /** For `together`. */
  moves?: { limit: string; change: string; from: number; to: number }[];
}

/** An element with a floor that nothing on the shelf and no water in use is known to hold. */
export interface Absent {
  element: Nutrient;
  min: MgPerLitre;
  /** Kinds of product that would bring it, the best first. */
  broughtBy: string[];
}

/** The proof of a conflict as a sum: Σ times · limit asks for `asked`, and no mix can give more than `most`. */
export interface FarkasSum {
  terms: { limit: string; end: 'least' | 'most'; bound: number; times: number }[];
  asked: number;
  most: number;
  sentence: string;
}

/** Why no mix exists. */
export interface WhyNot {
  absent: Absent[];
  conflict: ConflictLine[];
  /** True where every limit of the conflict is proved to be needed for it. */
  irreducible: boolean;
  farkas: FarkasSum | null;
  relaxations: Relaxation[];
}

/** What moving an end does to the cost per litre: `pricePerUnit` per unit of the end, the same as far as `limit`. */
export interface PriceSide {
  /** null: the end cannot move that way, no mix would be left. */
  pricePerUnit: number | null;
  /** null: for ever. */
  limit: number | null;
}

/** A limit on which the cheapest mix stands, and what it costs to insist on it. */
export interface LimitPrice {
  limit: string;
  from: string;
  end: 'least' | 'most';
  bound: number;
  /** What `bound` is counted in. */
  unit: string;
  /** For a smaller and for a greater bound; they differ where the answer is degenerate. */
  left: PriceSide;
  right: PriceSide;
  /** Without the limit altogether: the cost per litre, and the share saved (0…1). */
  lifted: { costPerLitre: number; saves: number } | null;
  sentence: string;
}

/**
 * Money per g or mL, and per pack where the pack is known. Used: between lowest and highest (null: no end) the blend stays
 * the cheapest. Not used: below `lowest` it would come in (null: never); `highest` is null.
 */
export interface ProductPrice {
  id: string;
  unit: 'g' | 'mL';
  /** As counted in the blend. */
  price: number;
  lowest: number | null;
  highest: number | null;
  pack: number | null;
  lowestPerPack: number | null;
  highestPerPack: number | null;
  sentence: string;
}

/** What it costs to insist. Limits with the greatest saving first; unused products with the nearest first. */
export interface Prices {
  limits: LimitPrice[];
  used: ProductPrice[];
  unused: ProductPrice[];
}

/** What `blend` answers: a feed; why there is none; or, where neither is proved, the nearest guess. */
export type BlendResult = BlendMade | BlendCannot | BlendOpen;

interface BlendTold {
  goal: 'cheapest' | 'closest';
  feed: FeedHeader;
  /** What the labels' silence costs, sentence by sentence. */
  unknowns: string[];
  notes: string[];
  cautions: Caution[];
  proof: Proof;
}

/** A feed that keeps every limit; whether none is better, the proof says. */
export interface BlendMade extends Mix, BlendTold {
  status: 'made';
  /** For the cheapest blend of a priced shelf; on large shelves only on request. */
  prices?: Prices;
}

/** Proved: no feed keeps every limit. It has no doses; the feed that misses least stands under `nearest`. */
export interface BlendCannot extends WhyNot, BlendTold {
  status: 'cannot';
  nearest: NearestMix | null;
}

/** Neither found nor ruled out. */
export interface BlendOpen extends BlendTold {
  status: 'open';
  relaxations: Relaxation[];
  nearest: NearestMix | null;
}

/** The feed that misses its limits least, and which it misses. */
export interface NearestMix extends Mix {
  misses: Miss[];
}

/** One vertex of cost against closeness. */
export interface FrontierPoint {
  /** Largest miss from an aim, as a share of it. */
  miss: number;
  /** Per litre, in `costUnit`. */
  cost: number;
  /** The elements that miss by as much, and on which side of their aim. */
  misses: { element: Nutrient; side: 'above' | 'below' }[];
  items: Item[];
  waters: WaterShare[];
  /** Cost per litre of each percentage point closer, from the next vertex to this one; null at the cheapest. */
  costOfCloser: number | null;
}

/** What `blend --frontier` answers: the vertices from closest to cheapest, straight lines between them; or that there is no feed. */
export type FrontierResult = FrontierMade | FrontierNone;

interface FrontierTold {
  feed: FeedHeader;
  /** `EUR/L`, or `g/L` where nothing has a price. */
  costUnit: string;
  notes: string[];
  proof: Proof;
}

export interface FrontierMade extends FrontierTold {
  status: 'made';
  /** At least one. */
  points: FrontierPoint[];
}

export interface FrontierNone extends FrontierTold {
  /** Proved that no feed keeps every limit, or nothing proved. */
  status: 'cannot' | 'open';
}

/** One element of `reach`. */
export interface ReachLine {
  element: Nutrient;
  /** With every other limit kept; null when those cannot all be kept. */
  whole: Extent | null;
  /** With only the caps kept; null when even those cannot all be kept. */
  capsOnly: Extent | null;
  min: number | null;
  aim: number | null;
  max: number | null;
  reachable: boolean;
  limitedBy: string[];
}

/** mg/L from the lowest to the highest; a highest of null: nothing holds it back. */
export interface Extent {
  lowest: number;
  highest: number | null;
}

/** What `reach` answers for one feed. */
export interface ReachResult {
  /** Whether all limits can be kept together. */
  status: 'together' | 'apart' | 'open';
  feed: FeedHeader;
  shelf: string;
  elements: ReachLine[];
  notes: string[];
  proof: Proof;
}
