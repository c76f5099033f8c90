import type { OtherWater } from './named-water.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Disagreement } from '../label/closed-product.js';
import type { Limit, Wish } from '../feed/limits.js';

/** Findings of this room as data; their sentences stand in the report. */

/** A sense in which advice can be meant. */
export type AdviceSense =
  /** A rate per such a volume of water; of a stock diluted 1:`parts`. `of`: where a share may be in the rate already, both are read. */
  | { kind: 'rate'; per: string; of: 'rate' | 'share of it' | 'as it is'; stockParts: number | null }
  /** The product of that grade on the grower's own shelf; per such a volume where a rate is told. */
  | { kind: 'own product'; id: string; per: string | null }
  /** The share of a rate that labels often call full strength. */
  | { kind: 'usual rate'; rate: UsualRate }
  | { kind: 'element'; element: Nutrient }
  /** mg/L of the product itself. */
  | { kind: 'product' }
  /** A conductivity of the feed solution; `aboveWater`: what the feed adds to that of the water. */
  | { kind: 'EC'; aboveWater: boolean }
  | { kind: 'pen'; scale: string; aboveWater: boolean };

/** True where a reading is what the feed adds to that of the water. */
export const isAboveWater = (sense: AdviceSense): boolean => 'aboveWater' in sense && sense.aboveWater;

/** Full strength on the labels of soluble feeds: common practice, no source. */
export type UsualRate = '1/2 tsp per US gal' | '1 tsp per US gal' | '1 tbsp per US gal';

/** A measure whose size words leave open, or one that is known by its name. */
export type MeasureSense = { kind: 'open'; measure: OpenMeasure } | { kind: 'unit'; name: string };

export type OpenMeasure =
  | 'US teaspoon'
  | 'metric teaspoon'
  | 'US tablespoon'
  | 'metric tablespoon'
  | 'Australian tablespoon'
  | 'US cup'
  | 'metric cup'
  | 'drop'
  | 'ounce of weight'
  | 'US fluid ounce'
  | 'imperial fluid ounce';

/** How the words were taken. */
export type AdviceNote =
  /** A gallon, quart or pint that is not named is read both ways. */
  | { kind: 'volume'; written: string; units: string[] }
  | { kind: 'measure'; written: string; senses: MeasureSense[] }
  /** What a millilitre of an unnamed powder may weigh, and how labels of liquids may count. */
  | { kind: 'powder' | 'liquid' }
  /** % of the elements, or N – P2O5 – K2O. */
  | { kind: 'grade'; grade: string; of: 'elements' | 'oxides' }
  /** A grade tells neither the forms of nitrogen nor what else is there. */
  | { kind: 'only a grade' }
  /** The own feed is held against it by another nutrient than nitrogen. */
  | { kind: 'no nitrogen'; grade: string; counts: Nutrient }
  | { kind: 'how often' }
  | { kind: 'behind the injector' }
  | { kind: 'ceiling' }
  /** One part of stock in so many, or to so many of water. */
  | { kind: 'parts of stock' }
  /** A rate in brackets may be full strength, or the share of it. */
  | { kind: 'share or whole'; rate: string }
  | { kind: 'share of EC' }
  /** ppm of an oxide turned into the element. */
  | { kind: 'turned into'; written: string; element: Nutrient }
  | FigureNote
  | { kind: 'above water' | 'whole can' }
  /** ppm of nobody knows what. */
  | { kind: 'bare ppm' }
  | { kind: 'unknown base'; share: number }
  | { kind: 'no own feed' }
  | OtherWater
  /** A product of that grade stands on the shelf; g or mL a litre of its label where that is taken as full strength. */
  | { kind: 'own product'; id: string; full: number | null; unit: 'g' | 'mL' };

/** How a conductivity was read: CF counts tenths of mS/cm, an EC without a unit can be a feed in one unit only. */
export type FigureNote = { kind: 'CF' } | { kind: 'EC without unit'; unit: 'mS/cm' | 'µS/cm' };

/** What would make the range narrower. */
export type AdviceNeed =
  | { kind: 'which gallon' | 'density of the liquid' | 'weight of ten spoons' | 'whole label' | 'label rate' }
  | { kind: 'scale of the pen' | 'ppm of what' }
  | { kind: 'share or whole'; rate: string };

/** Why the own feed is not as strong, or as weak, as the advice. */
export type Limited =
  /** The water alone reads as much. */
  | { kind: 'water'; mSPerCm: number }
  | { kind: 'EC limit'; mSPerCm: number }
  /** It is stronger than the programme at full strength, past which nothing is advised. */
  | { kind: 'full strength' }
  /** What the programme takes at full strength, as rules. */
  | { kind: 'programme'; rules: string[] }
  /** No such strength can be asked for. */
  | { kind: 'strength'; way: Way }
  /** No mix from this shelf keeps every limit; the limits of the conflict. */
  | { kind: 'shelf'; way: Way; limits: (Limit | Wish)[] }
  | { kind: 'not found'; way: Way };

export type Way = 'stronger' | 'weaker';

/** A spoonful of a powder as grams. */
export interface Spoonful {
  id: string;
  millilitres: number;
  grams: number;
  /** g/mL, and how far it may be off either way where that is known. */
  bulkDensity: number;
  off: number | null;
}

/** How a recipe was taken. */
export type AssessNote =
  | { kind: 'spoonful'; spoonful: Spoonful }
  /** The salts that its label names cannot make its analysis. */
  | { kind: 'sources disagree'; id: string; disagreement: Disagreement }
  | { kind: 'equal waters' }
  | OtherWater;
