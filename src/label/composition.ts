import type { Nutrient, PerNutrient } from '../chemistry/nutrients.js';
import type { Law } from './law.js';
import type { LeftOpen, LikelyRange } from './left-open.js';

/**
 * What one gram (powder) or one millilitre (liquid) holds of a nutrient, in mg.
 * `stated` is null where the label is silent. A minimum may count on `low` only; a cap must allow for `high`.
 */
export interface Content {
  low: number;
  stated: number | null;
  high: number;
}

/** A label turned into milligrams. For an element that the label settles, low = stated = high. */
export interface Composition {
  per: 'g' | 'mL';
  content: PerNutrient<Content>;
  /** One unit of the last digit in which each figure is printed, mg. */
  printed?: ReadonlyMap<Nutrient, number>;
  /**
   * mg of what the label is silent on, once it has been closed: by the salts it names, or by every plausible counter-ion. The value is
   * the likeliest. No guarantee: a minimum still counts on `low` of the content alone.
   */
  closed?: ReadonlyMap<Nutrient, LikelyRange>;
  /** Whose law says what a figure may be off by; absent = that of the US. */
  law?: Law;
  /** What the label leaves open. */
  open: LeftOpen[];
}
