import type { Nutrient } from '../chemistry/nutrients.js';

/**
 * A linear rule over nutrients: lower ≤ Σ terms[n] · mg/L(n) ≤ upper.
 * Share and ratio rules are homogeneous (bounds 0): `NH4 <= 0.1 * N` is NH4-N − 0.1 N ≤ 0.
 */
export interface Rule {
  /** As written, for the report. */
  text: string;
  terms: Partial<Record<Nutrient, number>>;
  lower?: number;
  upper?: number;
  /** Where the rule came from: `you`, or the programme's row. */
  from: string;
}
