import type { Litres } from '../units/index.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { PowderKnown } from '../label/product.js';
import type { Solubility } from '../catalog/solubility.js';
import type { Amounts } from '../can/mix-amounts.js';
import type { Sequence } from '../can/sequence.js';
import type { FeedRequest } from '../feed/request.js';
import type { Miss, Mix } from '../feed/results.js';
import type { PenInHand, StepByPen } from './by-pen-types.js';
import type { DoseNote, DoseOffer } from './findings.js';
import type { Measure } from './measure.js';
import type { DoseProof } from './proof.js';
import type { Tool } from './tools.js';

/** Another way to measure an item near its dose. */
export interface Alternative extends Measure {
  /** True where every limit still holds with this measure in the place of the chosen one, all other items as chosen. */
  keeps: boolean;
}

/** One item of the batch. */
export interface PlannedItem {
  product: ClosedProduct;
  /** g or mL for the batch that the blend (or the nearest feed) wants. */
  wanted: number;
  chosen: Measure;
  /** The nearest of every other tool in the kit, spoon | mL | drops | grams, side by side. */
  alternatives: Alternative[];
}

/** A limit that the measured doses do not keep. */
export type Violation = Miss;

/** Doses for a whole batch, chosen together. */
export type DosePlan = KeptPlan | ViolatingPlan;

/** A plan that is only tried: its items still stand as on the shelf, for working out the order takes as long as all the rest. */
export type TrialPlan = Omit<KeptPlan, 'sequence'> | Omit<ViolatingPlan, 'sequence'>;

/** Every band, cap, rule and the EC cap (by the full model) holds as measured. */
export interface KeptPlan extends Doses {
  status: 'kept';
  /** Where an item is only written down, for nothing in the kit measures it: what would; absent where none was asked for. */
  offers?: DoseOffer[];
}

/** The kit cannot measure it closely enough; these doses violate least. */
export interface ViolatingPlan extends Doses {
  status: 'violated';
  violations: Violation[];
  /** What would make it possible, each checked by planning again; empty where none was asked for. */
  offers: DoseOffer[];
}

interface Doses {
  batchLitres: Litres;
  /** In mixing order; none with an amount of 0. */
  items: PlannedItem[];
  /** That order, with how full the can is at each; the order of the blend, as long as the measured doses stay as clear in it. */
  sequence: Sequence;
  /** Items of the blend that are left out because they are too little to measure, or better left out; limits are judged without them. */
  leftOut: { product: ClosedProduct; wanted: number }[];
  /** What is delivered, g or mL per litre in the order of `request.shelf`, and shares of the waters. */
  amounts: Amounts;
  request: FeedRequest;
  /** Read out of what is really measured. */
  mix: Mix;
  /** Scoops, drops, fills and weighings in all. */
  actions: number;
  tools: Tool[];
  notes: DoseNote[];
  proof: DoseProof;
  /** The steps in their order where doses go by the pen; absent where they go by measure. */
  byPen?: PenInHand & { steps: StepByPen[] };
}

export interface PlanOptions {
  /** Products whose bulk densities stand in where the shelf knows none; default: the market of the request. */
  known?: readonly PowderKnown[];
  /** What water holds of each salt; without it no stock bottles are offered. */
  solubility?: readonly Solubility[];
  /** Levels of the items that a pen steers or a bottle holds, by id, in the place of what the kit measures. */
  steered?: ReadonlyMap<string, readonly Measure[]> | undefined;
  /** The pen that doses go by already. */
  pen?: PenInHand | undefined;
  /** False leaves the offers out (default: worked out where a limit is violated). */
  offers?: boolean;
}
