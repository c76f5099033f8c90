import type { Measured } from '../chemistry/nutrients.js';
import type { MilliSiemensPerCm } from '../units/index.js';
import type { Medium, Phase } from './phases.js';

/** What a programme or a grower asks of a can beyond the band of each element. */
export type Rule = LinearRule | EcRule;

/**
 * A linear rule over nutrients: lower ≤ Σ terms[n] · mg/L(n) ≤ upper.
 * Share and ratio rules are homogeneous (bounds 0): `NH4 <= 0.1 * N` is NH4-N − 0.1 N ≤ 0.
 */
export interface LinearRule {
  kind: 'linear';
  /** As written, for the report. */
  text: string;
  terms: Partial<Record<Measured, number>>;
  lower?: number;
  upper?: number;
  /** True where it is aimed at, as the aims of elements are, and gives way where the shelf would be far from those otherwise. */
  aimed?: true;
  from: RuleOrigin;
}

/** A cap on the EC of the can. */
export interface EcRule {
  kind: 'ec';
  text: string;
  /** At 25 °C, water included. */
  upper: MilliSiemensPerCm;
  from: RuleOrigin;
}

/** At most this share of the total nitrogen as ammonium. */
export const mostAmmonium = (share: number, from: RuleOrigin): LinearRule => ({
  kind: 'linear',
  text: `NH4 <= ${share} * N`,
  terms: share === 0 ? { 'NH4-N': 1 } : { 'NH4-N': 1, N: -share },
  upper: 0,
  from,
});

/** Whose a rule is; of the programme's, for which plants, medium and phase (absent: for all). */
export type RuleOrigin = { owner: 'you' } | { owner: 'programme'; plants?: string; medium?: Medium; phase?: Phase };
