import type { Asking } from './asking.js';
import type { Answered, State } from './state.js';
import type { Store } from './store.js';
import type { AskedOf, Kind, ToldOf } from './work/questions.js';
import { keyOf } from './key.js';
import firstAnswers from 'first-answers';

/** What a view may do: change the state, ask the worker, know the time. */
export interface Desk {
  change: Store['change'];
  asking: Asking;
  /** Now, as files say it: `2026-11-25T10:30`. */
  now: () => string;
}

/** An answer with the type that its question has; undefined until the first one came. */
export type Answer<K extends Kind> = Omit<Answered, 'answer'> & { answer: ToldOf<K> | undefined; isCurrent: boolean };

/** What is known of a question: the answer that was worked out beforehand, or what the worker has told so far. */
export function answerOf<K extends Kind>(state: State, channel: string, kind: K, asked: AskedOf<K> | null): Answer<K> {
  const of = keyOf(kind, asked);
  const there = state.answers[channel];
  const before = firstAnswers[of];
  if (before !== undefined)
    return { status: 'answered', of, answer: before as ToldOf<K>, problems: [], said: '', took: 0, isCurrent: true };
  if (there === undefined)
    return { status: 'asking', of: '', answer: undefined, problems: [], said: '', took: 0, isCurrent: false };
  return {
    ...there,
    answer: there.answer as ToldOf<K> | undefined,
    isCurrent: there.of === of && there.status !== 'asking',
  };
}

export const isKnownBefore = (kind: Kind, asked: unknown): boolean => firstAnswers[keyOf(kind, asked)] !== undefined;

/** Local time to the minute, as a person writes it. */
export function localTime(date: Date): string {
  const two = (n: number): string => String(n).padStart(2, '0');
  const day = `${date.getFullYear()}-${two(date.getMonth() + 1)}-${two(date.getDate())}`;
  return `${day}T${two(date.getHours())}:${two(date.getMinutes())}:${two(date.getSeconds())}`;
}
