import type { Nutrient } from '../chemistry/nutrients.js';
import type { Limit, Wish } from './limits.js';
import type { Ratio } from './ratio.js';
import type { MgPerLitre } from '../units/index.js';

/** Why no mix exists. */
export interface WhyNot {
  absent: Absent[];
  conflict: ConflictLine[];
  /** True where every limit of the conflict is proved to be needed for it. */
  irreducible: boolean;
  farkas: FarkasSum | null;
  relaxations: Relaxation[];
}

/** An element with a floor that nothing on the shelf and no water in use is known to hold. */
export interface Absent {
  element: Nutrient;
  min: MgPerLitre;
  /** Kinds of product that would bring it, the best first. */
  broughtBy: Source[];
}

/** What to look for in a shop: a kind of product, or one by name where its kind says nothing. */
export type Source = { kind: string } | { name: string };

/** One limit of a conflict, with what makes it bite. */
export interface ConflictLine {
  limit: Limit | Wish;
  because: ConflictReason[];
}

/** What makes a limit bite. Products go by id, waters by name. */
export type ConflictReason =
  /** Nothing on the shelf holds the element; what the waters hold of it, mg/L. */
  | { kind: 'no source'; nutrient: Nutrient; inWater: { water: string; mgPerLitre: number }[] }
  | { kind: 'water holds'; water: string; nutrient: Nutrient; mgPerLitre: number }
  /** The element comes from these alone; what the only one of them brings along. */
  | { kind: 'only from'; nutrient: Nutrient; products: string[]; bringing: Brought[] }
  /** A source of the element counts towards a cap of the conflict. */
  | { kind: 'brings'; product: string; brought: Brought }
  /** A product that floors call for counts towards this cap. */
  | { kind: 'brings with'; product: string; burden: Burden; per: Dose }
  | { kind: 'pushed up'; products: string[] }
  /** Pulls a rule below its floor by so much per g or mL. */
  | { kind: 'pushes against'; product: string; mg: number; unit: 'g' | 'mL' }
  /** The same for a rule of proportion: it holds so much over so much, and `asked` is wanted over that. */
  | { kind: 'out of proportion'; product: string; over: Dose; under: Dose; asked: number }
  | { kind: 'helped by'; products: string[] }
  /** A ceiling leaves so much of an element. */
  | { kind: 'room'; nutrient: Nutrient; mgPerLitre: number }
  | { kind: 'more products do' }
  /** What would do without a wish: packs, and what they cost. */
  | {
      kind: 'does without';
      wish: 'budget' | 'new products' | 'both';
      spend: number;
      currency: string;
      packs: PackCount[];
    }
  | { kind: 'not for sale' };

export interface PackCount {
  id: string;
  count: number;
}

export interface Dose {
  nutrient: Nutrient;
  mg: number;
}

/** What comes with so much of an element. */
export interface Brought {
  burden: Burden;
  per: Dose;
}

/** What a product counts towards a cap: mg of an element, mS/cm, or mg of the rule's left side. */
export interface Burden {
  limit: Limit;
  amount: number;
  of: Nutrient | 'EC' | 'the rule';
  /** What a cap of proportion allows of it; null where the cap itself says. */
  ratio: Ratio | null;
}

/** The proof of a conflict as a sum: Σ times · limit asks for `asked`, and no mix can give more than `most`. */
export interface FarkasSum {
  terms: { limit: Limit; end: 'least' | 'most'; bound: number; times: number }[];
  asked: number;
  most: number;
}

/** One way out of a conflict; each but `together` is enough by itself. */
export type Relaxation =
  /** This limit alone gives way. */
  | { kind: 'single'; move: LimitMove }
  /** The least in total over all limits, each counted in parts of itself. */
  | { kind: 'together'; moves: LimitMove[]; total: number }
  /** Every band scaled; factors of the programme. `percent` is rounded to what still works. */
  | {
      kind: 'strength';
      from: number;
      to: number;
      percent: number;
      decimals: number | null;
      nitrogen: number | null;
      asked: string;
    }
  /** Another water blended in: the least share, and the per cent that a jug can measure. */
  | { kind: 'water'; water: string; to: number; percent: number }
  | { kind: 'products'; from: number; to: number };

/** How far a limit gives way, in the terms that it is judged by. */
export interface LimitMove {
  limit: Limit;
  from: number;
  to: number;
  /** Where the limit is one of proportion, the ratio that moves. */
  ratio: Ratio | null;
  /** Where it is a stock, how much of the product the batch would take, g or mL. */
  wanted: number | null;
}
