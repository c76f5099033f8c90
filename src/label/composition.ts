import type { PerNutrient } from '../chemistry/nutrients.js';

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
  /** Plain sentences on what the label leaves open, for the report. */
  open: string[];
}
