import type { Nutrient } from '../chemistry/nutrients.js';
import type { MgPerLitre, MilliSiemensPerCm } from '../units/index.js';
import type { Rule } from './rule.js';

export const MEDIA = ['sphagnum', 'bark', 'coir', 'peat', 'clay', 'mounted'] as const;
export type Medium = (typeof MEDIA)[number];
export const PHASES = ['growth', 'bloom', 'rest'] as const;
export type Phase = (typeof PHASES)[number];

/** mg/L in the feed solution. Without `min` or `max` that side has no limit; without `aim` nothing within them is preferred. */
export interface Band {
  readonly min?: MgPerLitre;
  readonly aim?: MgPerLitre;
  readonly max?: MgPerLitre;
}

/** What a plant group in a medium wants in a phase, at the programme's full strength. */
export interface Programme {
  plants: string;
  medium: Medium;
  phase: Phase;
  readonly bands: Readonly<Partial<Record<Nutrient, Band>>>;
  readonly rules: Rule[];
  /** Highest EC of the feed solution at 25 °C, the water's own included, mS/cm. */
  readonly maxEc?: MilliSiemensPerCm;
  /** Sentences on why, each with its source and grade of evidence. */
  evidence: string[];
}
