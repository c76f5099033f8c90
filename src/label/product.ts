import type { Composition } from './composition.js';
import type { ProductIons } from './counter-ions.js';
import type { Where } from '../problem.js';

/** How well a row is supported. */
export type Evidence = 'trial' | 'handbook' | 'convention from memory' | 'invented for the demo' | 'grower';

/** One product on a shelf or on the market. Amounts are grams for powders and millilitres for liquids. */
export interface Product {
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  composition: Composition;
  /** Formula of a pure salt, when the row gave one. */
  formula?: string;
  /** Salts the label says it is derived from. */
  derivedFrom: string[];
  /** g/mL of a liquid. */
  density?: number;
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
  /** Ceiling from the label, g/L or mL/L. */
  maxRate?: number;
  /** Measured conductivity of 1 g/L or 1 mL/L in pure water at 25 °C, mS/cm; overrides what the ions predict. */
  ec?: number;
  /** Its ions, once the label has been closed by the salts it names (`closeProduct`). */
  ions?: ProductIons;
  /** The sort of product, in our own words: `salt`, `calcium`, `micro`, … */
  kind?: string;
  notes: string;
  source: string;
  evidence: Evidence;
  where: Where;
}

/** A source of water: mg/L of each nutrient (NO3-N as N), alkalinity as mg/L CaCO3. Money per litre, if any. */
export interface Water {
  id: string;
  name: string;
  mgPerLitre: Partial<Record<import('../chemistry/nutrients.js').Nutrient, number>>;
  alkalinity: number;
  pH?: number;
  pricePerLitre: number;
  source: string;
  evidence: Evidence;
}
