import type { Mix } from '../feed/results.js';
import type { Cause } from './cause.js';
import type { Limit, Miss } from '../feed/limits.js';

/** What to do with a can. */
export type Remedy = SettledRemedy | CheckFirst;

/** Explanations as likely ask for different things, so find out which it was; not knowing, `unknowing` is the safe way. */
export interface CheckFirst {
  status: 'check first';
  alternatives: Alternative[];
  unknowing: SettledRemedy;
}

/** Nothing can be told to do: no programme says what the plants want, or the readings are beyond every mistake considered. */
export interface NoRemedy {
  status: 'none';
  why: 'no programme' | 'beyond';
}

export type SettledRemedy = FeedAsIs | Mend | DoNotFeed;

/** Feed it as it is. */
export interface FeedAsIs extends Outlook {
  status: 'feed';
}

/**
 * `improve`: good to feed as it is, but the plan stands so near its limits that a few steps save many such cans more; `rescue`: do as told,
 * then feed.
 */
export interface Mend extends Outlook {
  status: 'improve' | 'rescue';
  doing: Doing;
  proof: RemedyProof | null;
}

/** Nothing within reach saves the can; `best` is the best that was found, null where that is to do nothing. */
export interface DoNotFeed extends Outlook {
  status: 'do not feed';
  best: { doing: Doing; proof: RemedyProof | null } | null;
}

/** What hands do: pour off, add, part into two jugs, fill up, in this order. */
export interface Doing {
  /** Share of the can that stays, and the litres that do not. */
  keepShare: number;
  pourLitres: number;
  /** The mark that it is poured off to, litres; null where nothing is. */
  pourTo: number | null;
  /** Two where it would run over the brim. */
  jugs: 1 | 2;
  /** The mark that it is filled up to, litres in all jugs; null where nothing is, or several waters are measured one by one. */
  fillTo: number | null;
  /** Litres between two marks of the jug. */
  mark: number;
  waterLitres: number;
  /** The same by water, those that are added. */
  waters: { id: string; name: string; litres: number }[];
  /** Where there are several waters each has to be named. */
  nameWaters: boolean;
  add: Added[];
  /** Litres in all jugs then. */
  finalLitres: number;
}

export interface Added {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  amount: number;
  /** The measure of the kit that delivers it, else plain grams or millilitres and what has to be borrowed for them, if anything. */
  by: { kind: 'measure'; words: string } | { kind: 'plain'; borrow: 'scale' | 'syringe' | null };
}

/** How the can stands after it. */
export interface Outlook {
  finalLitres: number;
  /** Share of the cans that would show these readings which keep every limit after it, hands being as they are. */
  sure: number;
  /** The same, each limit kept as well as nine of ten right batches keep it. */
  asRight: number;
  /** Share that keep every limit with nothing done. */
  asIs: number;
  /** The share after the best remedy that the program found; null where it was not asked. */
  optimum: number | null;
  /** Causes under which it is right, likeliest first, and those under which it would do harm. */
  safeUnder: string[];
  notUnder: string[];
  /** The likeliest can after the remedy, read out. */
  mix: Mix;
  misses: Miss[];
  /** Limits that the plan itself does not keep; held here where right batches leave them. */
  aside: Limit[];
  because: Because[];
}

/** Why this remedy, and what it rests on. */
export type Because =
  | { kind: 'other volume'; plannedLitres: number; litres: number }
  /** It thins out what is too much and makes up the others. */
  | { kind: 'thins out' }
  /** Causes under which it is right, under which the can is good as it is, and under which it would not be right. */
  | { kind: 'right under' | 'good under' | 'not right under'; causes: string[] }
  | { kind: 'plan violates'; limits: Limit[] };

/** What one explanation asks for. */
export interface Alternative {
  cause: Cause;
  asks: { status: 'feed' } | { status: 'do not feed' } | { status: 'improve' | 'rescue'; doing: Doing };
}

/** The program whose optimum the remedy is, before it was rounded to the kit. */
export interface RemedyProof {
  engine: string;
  found: number;
  bound: number;
  gap: number;
  violation: number;
}
