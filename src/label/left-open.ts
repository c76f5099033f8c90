import type { Nutrient } from '../chemistry/nutrients.js';

/** What a label leaves open, and what became of it when the label was closed; the words stand in the report. */
export type LeftOpen =
  /** Nitrogen without a stated form: `percent` of the product, of `total` % N where other forms are stated. */
  | {
      kind: 'nitrogen form';
      percent: number;
      total: number | null;
      forms: NitrogenForm[];
      cap: 'counts all' | 'as told';
    }
  /** Nothing is stated; from 0 up to so many % are possible. */
  | { kind: 'not stated'; nutrient: Nutrient; upToPercent: number }
  | { kind: 'counted as none'; nutrients: Nutrient[] }
  /** Salts in the list that are not understood. */
  | { kind: 'unknown sources'; names: string[] }
  /** Once closed: mg in one g or mL; a cap counts `ceiling`, which is less than `high` where the charges left over allow no more. */
  | { kind: 'closed'; nutrient: Nutrient; range: LikelyRange; per: 'g' | 'mL'; by: ClosedBy; ceiling: number }
  | {
      kind: 'nitrogen forms closed';
      forms: { form: NitrogenForm; range: LikelyRange }[];
      per: 'g' | 'mL';
      by: ClosedBy;
    }
  | { kind: 'ruled out'; nutrient: Nutrient; by: ClosedBy };

export type NitrogenForm = 'NO3-N' | 'NH4-N' | 'urea-N' | 'other-N';

/** By the salts that the label names, or by every plausible counter-ion. */
export type ClosedBy = 'sources' | 'label alone';

export interface LikelyRange {
  low: number;
  value: number;
  high: number;
}
