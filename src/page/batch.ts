import type { SinkView } from './sheet-view.js';
import type { BenchTexts } from './texts.js';

/** A batch that is being mixed. It carries its own sheet and bench: nothing that changes elsewhere changes what is in the can. */
export interface BatchInHand {
  texts: BenchTexts;
  sheet: SinkView;
  /** The line that is worked on; as many as there are lines: the can is done. */
  at: number;
  /** When each line was done, null where it was not. */
  done: readonly (string | null)[];
  /** As typed, by the number of the step. */
  readings: Readonly<Record<number, string>>;
  pH: string;
  /** What was done otherwise than planned, each as `meter --did` reads it, with the words it is shown in. */
  did: readonly { clause: string; words: string }[];
  begunAt: string;
  /** When it was written into the journal. */
  enteredAt: string | null;
}

/** What is done at the sink, each as `(batch, …) → batch`. */

export const begun = (texts: BenchTexts, sheet: SinkView, at: string): BatchInHand => ({
  texts,
  sheet,
  at: 0,
  done: sheet.lines.map(() => null),
  readings: {},
  pH: '',
  did: [],
  begunAt: at,
  enteredAt: null,
});

/** The line in hand is done: on to the next. */
export const stepped = (batch: BatchInHand, at: string): BatchInHand => ({
  ...batch,
  at: Math.min(batch.at + 1, batch.sheet.lines.length),
  done: batch.done.map((when, i) => (i === batch.at ? at : when)),
});

/** One line back, which is then not done. */
export const steppedBack = (batch: BatchInHand): BatchInHand => {
  const at = Math.max(0, batch.at - 1);
  return { ...batch, at, done: batch.done.map((when, i) => (i >= at ? null : when)) };
};

/** A reading of a step; an empty one takes it out. */
export function withReading(batch: BatchInHand, step: number, typed: string): BatchInHand {
  const { [step]: _, ...others } = batch.readings;
  return { ...batch, readings: typed.trim() === '' ? others : { ...others, [step]: typed.trim() } };
}

/** Readings up to a step, `2: 82`, as `meter --reading` takes them. */
export const readingsTo = ({ readings }: BatchInHand, step: number): string[] =>
  Object.entries(readings)
    .filter(([n]) => Number(n) <= step)
    .sort(([a], [b]) => Number(a) - Number(b))
    .map(([n, typed]) => `${n}: ${typed}`);

/** The step after which the can is full: the last that is read. */
export const lastStep = ({ sheet }: BatchInHand): number =>
  Math.max(...sheet.lines.flatMap(({ step, reading }) => (step !== null && reading !== null ? [step] : [])));

export const withDid = (batch: BatchInHand, clause: string, words: string): BatchInHand => ({
  ...batch,
  did: [...batch.did.filter((one) => one.clause !== clause), { clause, words }],
});

export const withoutDid = (batch: BatchInHand, clause: string): BatchInHand => ({
  ...batch,
  did: batch.did.filter((one) => one.clause !== clause),
});

/** All that went otherwise, as one sentence for `meter --did`. */
export const didOf = ({ did }: BatchInHand): string => did.map(({ clause }) => clause).join(', ');
