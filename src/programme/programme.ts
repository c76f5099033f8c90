import type { Nutrient } from '../chemistry/nutrients.js';
import type { MgPerLitre } from '../units/index.js';
import type { Medium, Phase } from './phases.js';
import type { Rule } from './rule.js';

export { MEDIA, type Medium, PHASES, type Phase } from './phases.js';

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
  /** EC caps among them. */
  readonly rules: Rule[];
  evidence: Grounds[];
  /** Where nothing is fed at all: plain water, from when to when, and why. */
  unfed?: Unfed;
}

/** A time without feed. */
export interface Unfed {
  from: string;
  to: string;
  evidence: string;
  source: string;
  notes: string;
}

/** Why a band, factor or rule is as it is: its source and how well that supports it. */
export interface Grounds {
  of:
    | { kind: 'band'; nutrient: Nutrient }
    | { kind: 'factor'; factor: number; nutrient: Nutrient | '*'; medium: Medium | '*'; phase: Phase | '*' }
    | { kind: 'rule'; text: string };
  evidence: string;
  /** Keys of `catalog/references.csv`. */
  refs: readonly string[];
  source: string;
  notes: string;
}

/** `all year`, or from when to when. */
export const restSays = ({ from, to }: Pick<Unfed, 'from' | 'to'>): string =>
  from === '' ? 'all year' : `from when ${from} to when ${to}`;
