import type { CloudingLine, Mineral, Pair } from '../can/clouding.js';
import type { StockRemark } from './concentrate-request.js';

/** What stands in the way of a stronger stock. */
export type StockLimit =
  /** The products would leave too little room for water in the bottle. */
  | { kind: 'room' }
  /** A mineral would precipitate; `between` are those that bring most of it, `index` and `most` are saturation indices. */
  | { kind: 'mineral'; mineral: Mineral; between: Pair | null; index: number; most: number }
  /** A salt of the mixture would crystallise. */
  | { kind: 'salt'; name: string; celsius: number }
  /** A product that is one substance would crystallise. */
  | { kind: 'product'; name: string; celsius: number }
  /** A powder that the table does not hold: a ceiling by convention, g per litre of stock; `known`: its salts are all known. */
  | { kind: 'powder'; name: string; gramsPerLitre: number; known: boolean }
  /** A stronger stock would be dosed by less than a millilitre. */
  | { kind: 'dose' };

/** Why an item belongs into no stock bottle with others. */
export type Apartness = 'silicate' | 'alkali' | 'acid';

/** What the reader should know about this very answer; products by name. */
export type StockNote =
  | { kind: 'remark'; remark: StockRemark }
  | { kind: 'ratio'; ratio: number }
  /** Nobody asked for a ratio, and the usual one would be too strong. */
  | { kind: 'strongest'; ratio: number }
  /** So many items matter that only the heaviest `exact` were tried in every way; the rest follow the rule. */
  | { kind: 'too many for every split'; exact: number }
  | { kind: 'make-up unknown'; products: string[] }
  | { kind: 'liquids'; products: string[] }
  | { kind: 'organic'; products: string[] }
  | { kind: 'label open'; products: string[] }
  | { kind: 'short on hand'; product: string; needed: number; onHand: number; unit: 'g' | 'mL' }
  | { kind: 'too little to weigh'; products: string[]; scaleStepGrams: number }
  | { kind: 'can clouds'; minerals: CloudingLine[] }
  | { kind: 'own pH' }
  | { kind: 'acid holds phosphate' };
