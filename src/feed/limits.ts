import type { Nutrient } from '../chemistry/nutrients.js';
import type { LinearRule } from '../programme/rule.js';
import type { MgPerLitre, MilliSiemensPerCm } from '../units/index.js';

export type End = 'least' | 'most';

/** One limit that a feed has to keep, with whose it is. */
export type Limit = NutrientLimit | NearLimit | RuleLimit | EcLimit | StockLimit | RateLimit | WaterLimit;

/** An end of the band of an element, mg/L in the can. */
export interface NutrientLimit {
  kind: 'nutrient';
  nutrient: Nutrient;
  end: End;
  bound: MgPerLitre;
  owner: 'programme';
}

/** An end of how near to its aim a plan holds an element, mg/L as labels state it. */
export interface NearLimit {
  kind: 'near';
  nutrient: Nutrient;
  end: End;
  bound: MgPerLitre;
  owner: 'aim';
}

/** One side of a rule; `bound` is that of the rule's left side, 0 for a share or ratio. */
export interface RuleLimit {
  kind: 'rule';
  rule: LinearRule;
  end: End;
  bound: number;
  owner: 'programme' | 'you';
}

/** The tightest cap on EC, mS/cm. */
export interface EcLimit {
  kind: 'ec';
  end: 'most';
  bound: MilliSiemensPerCm;
  owner: 'programme' | 'you';
}

/** What is on hand of a product, spread over the batch: `bound` in g or mL per litre. */
export interface StockLimit {
  kind: 'stock';
  product: string;
  unit: 'g' | 'mL';
  onHand: number;
  end: 'most';
  bound: number;
  owner: 'shelf';
}

/** The most of a product that its label allows, g or mL per litre. */
export interface RateLimit {
  kind: 'rate';
  product: string;
  unit: 'g' | 'mL';
  end: 'most';
  bound: number;
  owner: 'shelf';
}

/** The shares of the waters make one can; kept by every mix. */
export interface WaterLimit {
  kind: 'water';
  owner: 'water';
}

/** What a grower asks for beside the feed itself, where that is what stands in the way. */
export type Wish =
  | { kind: 'products'; end: 'most'; bound: number; owner: 'you' }
  | { kind: 'new products'; end: 'most'; bound: number; owner: 'you' }
  | { kind: 'budget'; end: 'most'; bound: number; currency: string; owner: 'you' }
  | { kind: 'new products for a budget'; end: 'most'; bound: number; budget: number; currency: string; owner: 'you' }
  | { kind: 'supply'; end: 'least'; bound: number; owner: 'shelf' };

/** A limit that a mix does not keep, in the limit's own terms: for a ratio, value and bound are ratios. */
export interface Miss {
  limit: MissableLimit;
  value: number;
  bound: number;
}

/** Limits that a mix can be held against by itself, without batch or shelf. */
export type MissableLimit = NutrientLimit | RuleLimit | EcLimit;

/** The EC cap as a limit. */
export const ecLimit = (rule: { upper: MilliSiemensPerCm; from: { owner: 'programme' | 'you' } }): EcLimit => ({
  kind: 'ec',
  end: 'most',
  bound: rule.upper,
  owner: rule.from.owner,
});
