import type { Nutrient } from '../chemistry/nutrients.js';
import type { Rule } from './rule.js';

export const MEDIA = ['sphagnum', 'bark', 'coir', 'peat', 'clay', 'mounted'] as const;
export type Medium = (typeof MEDIA)[number];
export const PHASES = ['growth', 'bloom', 'rest'] as const;
export type Phase = (typeof PHASES)[number];

/** mg/L in the can. A missing end is open; a missing aim lies nowhere in particular. */
export interface Band {
  min?: number;
  aim?: number;
  max?: number;
}

/** What a plant group in a medium wants in a phase, at the programme's full strength. */
export interface Programme {
  plants: string;
  medium: Medium;
  phase: Phase;
  bands: Partial<Record<Nutrient, Band>>;
  rules: Rule[];
  /** Highest total EC of the can, mS/cm. */
  maxEc?: number;
  /** Sentences on why, each with its source and grade of evidence. */
  evidence: string[];
}
