import type { Problem } from '../problem.js';
import type { Table } from './table.js';
import type { BatchInHand } from './batch.js';
import type { PlaceName } from './places/names.js';
import type { BenchTexts } from './texts.js';

export { type BenchTexts, FILE_NAMES, type FileName } from './texts.js';

/** The bench as it is kept on this device. */
export interface Kept {
  texts: BenchTexts;
  /** True until the grower changes the example that a first visit shows. */
  isExample: boolean;
  /** When a text was last changed, and when the files were last written out: `2026-11-25T10:30`; null for never. */
  changedAt: string | null;
  exportedAt: string | null;
  /** True while the files that were written out, or brought in, hold the very texts that are kept. */
  isOut: boolean;
}

/** How the feed is wished at the moment, beside what the bench says; an absent one is as the bench says. */
export interface Tuned {
  way: 'given' | 'bare' | 'closest' | 'one';
  strength?: string;
  nh4?: string;
  near?: string;
}

/**
 * What is to be bought for: how long, at most how many new products, for how much money; which of them never and which in any case, by id;
 * one mix for all pots. Empty: no such wish.
 */
export interface BuyWish {
  horizon: 'a quarter' | 'half a year' | 'a year' | 'other';
  /** How many weeks, where the horizon is another. */
  weeks: string;
  atMost: string;
  budget: string;
  ban: string;
  need: string;
  one: boolean;
}

export const NO_BUY_WISH: BuyWish = {
  horizon: 'half a year',
  weeks: '',
  atMost: '',
  budget: '',
  ban: '',
  need: '',
  one: false,
};

/** What is looked at of the year, from which day (empty: today), in which half of the world (empty: as the bench says). */
export interface YearWish {
  look: 'season' | 'journal' | 'stock' | 'pots' | 'cost';
  from: string;
  hemisphere: '' | 'north' | 'south';
  /** Whether what it takes is bought before it begins, and how long a parcel takes; empty: as usual. */
  buy: boolean;
  lead: string;
}

/** Small things that outlive a reload: where somebody stands in a place. A place adds its own key. */
export interface Remembered {
  place: PlaceName;
  /** The feed that is looked at; null: the first of the bench. */
  feed: string | null;
  tuned: Tuned;
  /** How much is to be mixed, as typed; and the batch that is being mixed. */
  mix: string;
  /** How doses are had: as the bench says, or by the pen. */
  by: '' | 'pen';
  batch: BatchInHand | null;
  buy: BuyWish;
  year: YearWish;
  /** Cards of the tour that were put away. */
  tourDone: boolean;
}

/** What came of a question to the worker; the last answer stays while a newer one is worked out. */
export interface Answered {
  status: 'asking' | 'put off' | 'answered' | 'refused' | 'failed' | 'stopped';
  /** The question that `answer` belongs to. */
  of: string;
  answer: unknown;
  problems: readonly Problem[];
  /** What the worker is at, or why it failed. */
  said: string;
  /** Milliseconds that the answer took. */
  took: number;
}

export interface State {
  kept: Kept;
  remembered: Remembered;
  saving: { status: 'saved' | 'saving' | 'failed'; why: string };
  /** What can be taken back: the texts before it, and what was done. */
  undo: { texts: BenchTexts; said: string } | null;
  /** What is for sale where the grower is, for this visit; null: the catalog. */
  market: Table | null;
  /** Files that were dropped on the page, to be looked at before anything is replaced. */
  dropped: readonly File[];
  /** Read out politely. */
  said: string;
  answers: Readonly<Record<string, Answered>>;
}

export const startOf = (texts: BenchTexts): State => ({
  kept: { texts, isExample: true, changedAt: null, exportedAt: null, isOut: false },
  remembered: {
    place: 'feed',
    feed: null,
    tuned: { way: 'given' },
    mix: '',
    by: '',
    batch: null,
    buy: NO_BUY_WISH,
    year: { look: 'season', from: '', hemisphere: '', buy: false, lead: '' },
    tourDone: false,
  },
  saving: { status: 'saved', why: '' },
  undo: null,
  market: null,
  dropped: [],
  said: '',
  answers: {},
});
