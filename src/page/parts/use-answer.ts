import { useLayoutEffect } from 'preact/hooks';
import { type Answer, answerOf, type Desk, isKnownBefore } from '../desk.js';
import { keyOf } from '../key.js';
import type { State } from '../state.js';
import type { AskedOf, Kind } from '../work/questions.js';

/**
 * Asks the worker whenever the question changes, and gives what is known: the last answer stays until the new one is there.
 * @param channel questions of one channel replace each other: the newest wins
 * @param asked null: nothing is asked for the time being
 * @param after milliseconds for which the question has to stay the same before it is asked
 */
export function useAnswer<K extends Kind>(
  { state, desk }: { state: State; desk: Desk },
  channel: string,
  kind: K,
  asked: AskedOf<K> | null,
  after = 0,
): Answer<K> {
  const of = keyOf(kind, asked);
  // at once, not after the next frame: a slider does not wait for one
  useLayoutEffect(() => {
    const there = state.answers[channel];
    if (asked === null || (there?.of === of && there.status === 'answered')) return;
    if (isKnownBefore(kind, asked)) {
      // so that it stays while a newer one is worked out
      const { isCurrent: _, ...known } = answerOf(state, channel, kind, asked);
      desk.change((s) => ({ ...s, answers: { ...s.answers, [channel]: known } }));
      return;
    }
    if (after === 0) {
      desk.asking.ask(channel, kind, asked);
      return;
    }
    // what is worked on is the answer to another question by now
    desk.asking.putOff(channel);
    const timer = setTimeout(() => desk.asking.ask(channel, kind, asked), after);
    return () => clearTimeout(timer);
  }, [of]);
  return answerOf(state, channel, kind, asked);
}
