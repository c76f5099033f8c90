/** What an entry of the journal is about. */
export const KINDS = ['batch', 'bought', 'counted', 'standard', 'pot', 'undo'] as const;
export type Kind = (typeof KINDS)[number];

/** A product with how much of it: g of a powder, mL of a liquid. */
export interface JournalItem {
  id: string;
  amount: number;
  unit: 'g' | 'mL';
  /** What it was measured with; null where nobody said. */
  tool: string | null;
}

/** A reading before the end of a batch: after which step of its sheet, and mS/cm at 25 °C. */
export interface StepRead {
  step: number;
  mSPerCm: number;
}

/** A line of the journal that is yet to be written; what was not said is null, or empty. */
export interface Draft {
  /** `2026-11-28` */
  date: string;
  kind: Kind;
  /** The feed of a batch, or that a pot gets. */
  feed: string;
  /** Of a batch; of a pot, what it holds. */
  litres: number | null;
  /** Used by a batch, in the order of its sheet; bought; or counted, as it is on hand. */
  items: readonly JournalItem[];
  /** mS/cm at 25 °C: of the full can with the pen's factor; of a standard, as the pen shows it; of what runs out of a pot. */
  reading: number | null;
  /** mS/cm: of the can by its labels; of a standard, what the pen should show; of a pot, what it is fed. */
  expected: number | null;
  /** Between which nine of ten right batches read, as told on that day. */
  low: number | null;
  high: number | null;
  steps: readonly StepRead[];
  /** What the readings were multiplied by; null is 1. */
  penFactor: number | null;
  /** °C */
  temperature: number | null;
  pH: number | null;
  /** Of what was used, by the prices of that day; or paid. */
  cost: number | null;
  currency: string;
  pot: string;
  medium: string;
  /** The number of the entry that is undone. */
  of: number | null;
  /** Waters and their shares, where the bench had several. */
  waters: readonly { id: string; share: number }[];
  /** Share of full strength. */
  strength: number | null;
  /** The code of the sheet. */
  sheet: string;
  note: string;
}

/** A line of the journal. */
export interface Entry extends Draft {
  /** Its number; entries are numbered in the order in which they were made. */
  entry: number;
  /** Line of the file, counted from 1. */
  line: number;
}

/** A draft of that kind and day with nothing in it. */
export const blank = (kind: Kind, date: string): Draft => ({
  date,
  kind,
  feed: '',
  litres: null,
  items: [],
  reading: null,
  expected: null,
  low: null,
  high: null,
  steps: [],
  penFactor: null,
  temperature: null,
  pH: null,
  cost: null,
  currency: '',
  pot: '',
  medium: '',
  of: null,
  waters: [],
  strength: null,
  sheet: '',
  note: '',
});
