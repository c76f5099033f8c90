import type { Nutrient } from '../chemistry/nutrients.js';
import type { FeedHeader } from './header.js';
import type { Proof } from './proof.js';
import type { Limit } from './limits.js';

/** One element of `reach`. */
export interface ReachLine {
  element: Nutrient;
  /** With every other limit kept; null when those cannot all be kept. */
  whole: Extent | null;
  /** With only the caps kept; null when even those cannot all be kept. */
  capsOnly: Extent | null;
  min: number | null;
  aim: number | null;
  max: number | null;
  /** Whether it can be brought into its band. */
  reachable: boolean;
  /** Whether it can be brought to its aim with every other limit kept; null without an aim, or where those cannot all be kept. */
  aimReachable: boolean | null;
  /** What keeps it from its aim, or from its band; null where nothing does. */
  decides: Decides | null;
  /** Null: nothing does, there is no highest. */
  limitedBy: Limit[] | null;
}

/**
 * What decides how near an element comes to where it is wanted: the one limit without which its aim is met nearest, by programs solved anew;
 * where it has no aim, the greatest part of the proof that its band is out of reach.
 */
export type Decides =
  | { kind: 'limit'; limit: Limit }
  /** One product alone brings it, and this limit stops that product. */
  | { kind: 'only source'; product: string; limit: Limit }
  | { kind: 'nothing brings it' }
  /** Pure water would bring it nearest; the waters alone hold so much of it. */
  | { kind: 'water'; mgPerLitre: number }
  /** No limit by itself: all of these have to give way before it comes any nearer. */
  | { kind: 'together'; limits: Limit[] };

/** mg/L from the lowest to the highest; a highest of null: nothing limits it. */
export interface Extent {
  lowest: number;
  highest: number | null;
}

/** What `reach` answers for one feed. */
export interface ReachResult {
  /** Whether all limits can be kept together. */
  status: 'together' | 'apart' | 'open';
  feed: FeedHeader;
  shelf: string;
  elements: ReachLine[];
  /**
   * 0 where the aims within reach one by one can be met all at once. Where they cannot, how far the nearest feed (`--closest`, before it is
   * measured out) is from the aim of `farthest`, as a share of it: |content − aim| / aim. Null where no aim is in reach, or where not all limits
   * can be kept.
   */
  aimsMiss: number | null;
  /** The element that lies farthest from its aim in that feed; null where nothing has to. */
  farthest: Nutrient | null;
  /** Where the limits cannot all be kept together: those that the proof leans on, the greatest part first. */
  conflict: Limit[];
  /** True where it is proved that the limits cannot all be kept together: then the caps alone decide. */
  conflicting: boolean;
  /** A limit on alkalinity that none of the waters keeps, mg/L as CaCO3, with the least that one of them brings; null where there is none. */
  alkaline: { limit: number; least: number } | null;
  proof: Proof;
}
