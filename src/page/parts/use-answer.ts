import { useEffect } from 'preact/hooks';
import { keyOf } from '../asking.js';
import { type Answer, answerOf, type Desk, isKnownBefore } from '../desk.js';
import type { State } from '../state.js';
import type { AskedOf, Kind } from '../work/questions.js';

/**
 * Asks the worker whenever the question changes, and gives what is known: the last answer stays until the new one is there.
 * @param channel questions of one channel replace each other: the newest wins
 * @param asked null: nothing is asked for the time being
 */
export function useAnswer<K extends Kind>(
  { state, desk }: { state: State; desk: Desk },
  channel: string,
  kind: K,
  asked: AskedOf<K>,
): Answer<K> {
  const of = keyOf(kind, asked);
  useEffect(() => {
    const there = state.answers[channel];
    if (isKnownBefore(kind, asked) || (there?.of === of && there.status === 'answered')) return;
    desk.asking.ask(channel, kind, asked);
  }, [of]);
  return answerOf(state, channel, kind, asked);
}
