import type { Caution } from '../can/cautions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { AlkalinityLine } from '../can/alkalinity.js';
import type { IronLine } from '../can/iron.js';
import type { AcidityLine, AmmoniaLine, EcAtTemperature, EcLine, PhLine } from '../can/can-lines.js';
import type { CloudingLine } from '../can/clouding.js';
import type { Meeting } from '../can/meeting.js';
import type { GramsPerLitre, MgPerLitre, MillilitresPerLitre } from '../units/index.js';
import type { Disagreement } from '../label/closed-product.js';
import type { LinearRule } from '../programme/rule.js';
import type { FeedHeader } from './header.js';
import type { EcLimit, Limit, Miss } from './limits.js';
import type { Proof } from './proof.js';
import type { Relaxation, WhyNot } from './why-not.js';

export type * from './header.js';
export type * from './limits.js';
export type * from './reach-results.js';
export type * from './why-not.js';

export type { AcidityLine, EcAtTemperature, EcLine, PhLine } from '../can/can-lines.js';

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
  rule: LinearRule;
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
  ec: EcLine & { cap: EcLimit | null };
  /** Only where a temperature was asked for. */
  ecAtTemperature?: EcAtTemperature;
  ph: PhLine;
  acidity: AcidityLine;
  /** Against what the medium bears; null where no medium is known. */
  alkalinity: AlkalinityLine | null;
  ammonia: AmmoniaLine;
  /** null where there is none. */
  iron: IronLine | null;
  /** Whether the can stays clear, mineral by mineral. */
  precipitation: CloudingLine[];
  /** Pairs that stay clear in the can but cloud where they meet undiluted; absent where there are none. */
  meetings?: Meeting[];
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
  limit: Limit;
  end: 'least' | 'most';
  bound: number;
  /** For a smaller and for a greater bound; they differ where the answer is degenerate. */
  left: PriceSide;
  right: PriceSide;
  /** Without the limit altogether: the cost per litre, and the share saved (0…1). */
  lifted: { costPerLitre: number; saves: number } | null;
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
  /** False where the price is assumed. */
  isKnown: boolean;
}

/** What it costs to insist. Limits with the greatest saving first; unused products with the nearest first. */
export interface Prices {
  /** Per litre, as the program counts it. */
  cost: number;
  limits: LimitPrice[];
  used: ProductPrice[];
  unused: ProductPrice[];
}

/** What a label's silence costs: the figure (cost per litre, or largest miss) if it stated what it leaves open as kindly as can be. */
export interface Silence {
  /** Null: all labels together. */
  label: string | null;
  kindest: number;
  /** The figure as it is; null where no mix was possible. */
  found: number | null;
}

/** What is worth knowing beside a blend. Products go by id. */
export type BlendNote =
  /** The lightest mix was sought instead of the cheapest. */
  | { kind: 'no prices' }
  /** Counted at the dearest known price per g or mL. */
  | { kind: 'price assumed'; products: string[]; dearest: number }
  | { kind: 'sources disagree'; product: string; off: Disagreement };

/** What `blend` answers: a feed; why there is none; or, where neither is proved, the nearest guess. */
export type BlendResult = BlendMade | BlendCannot | BlendOpen;

interface BlendTold {
  goal: 'cheapest' | 'closest';
  feed: FeedHeader;
  /** What the labels' silence costs, for all together and label by label. */
  unknowns: Silence[];
  notes: BlendNote[];
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

/** A corner of cost against nearness: the feed that `--near` with its share gives, and the nearest share that gives it. */
export interface FrontierPoint {
  /** Share by which main elements may be from their aims, as `--near` asks it. */
  near: number;
  /** Times its aim (or its aim divided by it) that a main and a trace element may be in the plan. */
  main: number;
  trace: number;
  /** The element farthest from its aim in the feed, counted in widths of its kind; null without aims. */
  farthest: { element: Nutrient; mgPerLitre: number; aim: number } | null;
  /** Per litre, in `costUnit`; products without a price at the dearest known one. */
  cost: number;
  /** Money per litre, as the feed itself tells it. */
  costPerLitre: number;
  /** Share of cans that keep the limits. */
  sure: number;
  items: Item[];
  waters: WaterShare[];
  /** Cost per litre of each percentage point nearer, from the next corner to this one; null at the cheapest. */
  costOfCloser: number | null;
}

/** What `blend --frontier` answers: feeds from nearest to cheapest, each the cheapest of those at least as near that were tried; or that there is none. */
export type FrontierResult = FrontierMade | FrontierNone;

interface FrontierTold {
  feed: FeedHeader;
  /** `EUR/L`, or `g/L` where nothing has a price. */
  costUnit: string;
  /** Products counted at the dearest known price. */
  assumed: string[];
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
