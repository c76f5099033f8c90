import type { Nutrient, PerNutrient } from '../chemistry/nutrients.js';
import type { MgCaCO3PerLitre, MgPerLitre, MilliSiemensPerCm } from '../units/index.js';
import type { Composition, Content } from './composition.js';
import type { Where } from '../problem.js';

/** How well a row is supported. */
export type Evidence = 'trial' | 'handbook' | 'grower practice' | 'from memory, unchecked' | 'invented' | 'grower';

/** A product as its row says it. Amounts are grams for powders and millilitres for liquids. Its label is still open: see `closeProduct`. */
export interface Product extends Jar, Label {}

/** What a row says of the jar and its maker. */
export interface Jar {
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  /** g/mL of a powder, levelled. */
  bulkDensity?: number;
  /** g/mL either way within which nineteen of twenty fillings lie; absent = not told. */
  bulkDensityOff?: number;
  /** g or mL left; absent = unknown (no limit), 0 = used up. */
  onHand?: number;
  /** g or mL in one pack. */
  pack?: number;
  /** Money for one pack; absent = unknown. */
  price?: number;
  /** The currency written beside the price, such as EUR or €; absent where it stands alone. */
  priceCurrency?: string;
  /** The most that its label allows, g/L or mL/L. */
  maxRate?: number;
  /** The sort of product, in our own words: `salt`, `calcium`, `micro`, … */
  kind?: string;
  notes: string;
  source: string;
  evidence: Evidence;
  where: Where;
}

/** What a row says of what is inside. */
export interface Label {
  composition: Composition;
  /** Formula of a pure salt, when the row gave one. */
  formula?: string;
  /** Salts the label says it is derived from. */
  derivedFrom: readonly string[];
  /** g/mL of a liquid. */
  density?: number;
  /** Measured conductivity of 1 g/L or 1 mL/L in pure water at 25 °C, mS/cm; overrides what the ions predict. */
  ec?: MilliSiemensPerCm;
}

/** What is said of a product that could be bought, its label open or closed: enough to name it and to tell what it is sure to bring. */
export interface OnSale extends PowderKnown {
  name: string;
  kind?: string | undefined;
  composition: { content: PerNutrient<Pick<Content, 'low'>> };
}

/** A powder whose bulk density may stand in for that of the same powder elsewhere. */
export interface PowderKnown {
  id: string;
  formula?: string | undefined;
  bulkDensity?: number | undefined;
}

/** A source of water: mg/L of each nutrient (NO3-N as N), alkalinity as mg/L CaCO3. Money per litre, if any. */
export interface Water {
  readonly id: string;
  readonly name: string;
  readonly mgPerLitre: Readonly<Partial<Record<Nutrient, MgPerLitre>>>;
  readonly alkalinity: MgCaCO3PerLitre;
  readonly pH?: number;
  readonly pricePerLitre: number;
  readonly source: string;
  readonly evidence: Evidence;
}
