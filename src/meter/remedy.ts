import type { Mix } from '../feed/results.js';

/** What to do with the can. */
export interface Remedy {
  /**
   * `feed`: as it is; `improve`: good to feed as it is, but the plan stands so near its limits that the steps save many such cans more;
   * `rescue`: do as told, then feed; `check first`: explanations as likely ask for different things, so find out which it was
   * (or, not knowing, do as told: it is the safe way); `do not feed`: nothing within reach saves it.
   */
  status: 'feed' | 'improve' | 'rescue' | 'check first' | 'do not feed';
  pourLitres: number;
  keepShare: number;
  waterLitres: number;
  /** The same by water, those that are added. */
  waters: { id: string; name: string; litres: number }[];
  /** In the grower's own tool. */
  add: { id: string; name: string; unit: 'g' | 'mL'; amount: number; words: string }[];
  finalLitres: number;
  /** What hands do, in order. */
  steps: string[];
  /** Why, and what it rests on. */
  says: string[];
  /** Where explanations part: what to find out, and what each asks for. */
  alternatives: Alternative[];
  /** Share of the cans that would show these readings which keep every limit after it, hands being as they are. */
  sure: number;
  /** The same, each limit kept as well as nine of ten right batches keep it. */
  asRight: number;
  /** Share that keep every limit with nothing done. */
  asIs: number;
  /** Causes it rests on, likeliest first, and those under which it would do harm. */
  safeUnder: string[];
  notUnder: string[];
  /** The likeliest can after the remedy, read out. */
  mix: Mix;
  misses: { limit: string; value: number; bound: number }[];
  /** Limits that the plan itself does not keep, in words; held here where right batches leave them. */
  aside: string[];
  proof: { engine: string; found: number; bound: number; gap: number; violation: number; sentence: string } | null;
}

/** What one explanation asks for. */
export interface Alternative {
  cause: string;
  words: string;
  check: string;
  probability: number;
  status: 'feed' | 'improve' | 'rescue' | 'do not feed';
  steps: string[];
}
