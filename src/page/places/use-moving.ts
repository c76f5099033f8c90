import { useEffect, useRef, useState } from 'preact/hooks';
import type { Answer } from '../desk.js';
import { useAnswer } from '../parts/use-answer.js';
import type { BenchTexts } from '../state.js';
import type { NearView } from '../work/near.js';
import type { PlaceProps } from './place.js';

/** Milliseconds after which the worker of what moves is made ready, if nobody has touched a slider before. */
const READY = 600;

/** What follows a slider before the doses do. */
export interface Moving {
  /** The nearest mix at this place of the sliders, or a moment ago; null where the answer itself is there, or no mix was told yet. */
  near: NearView | null;
  /** True where the old doses stay, marked as old, while those of this place are worked out. */
  follows: boolean;
  /** A slider is about to be moved. */
  touch: () => void;
}

/** The nearest mix of what the sliders say, worked out in a worker of its own as they move. */
export function useMoving(props: PlaceProps, answer: Answer<'feed'>, isEmpty: boolean): Moving {
  const { kept, remembered } = props.state;
  const { feed, tuned } = remembered;
  const [isReady, setReady] = useState(false);
  const slid = (tuned.strength ?? tuned.nh4 ?? tuned.near) !== undefined;
  const has = !isEmpty && (tuned.way === 'given' || tuned.way === 'closest');
  const texts = nearTexts(kept.texts);
  const near = useAnswer(props, 'near', 'near', has && (slid || isReady) ? { texts, feed, tuned } : null);
  const here = JSON.stringify([feed, tuned.way]);
  const before = useRef<{ texts: BenchTexts; here: string; near: NearView | null } | null>(null);
  if (answer.isCurrent) before.current = { texts, here, near: null };
  // old doses stand beside new figures only where both are of the same bench, feed and way
  const isSame = before.current?.texts === texts && before.current.here === here;
  if (isSame && !answer.isCurrent && near.isCurrent && near.answer) before.current!.near = near.answer;
  useEffect(() => {
    if (!answer.isCurrent || isReady) return;
    const timer = setTimeout(() => setReady(true), READY);
    return () => clearTimeout(timer);
  }, [answer.isCurrent, isReady]);
  const isTold = near.isCurrent
    ? near.answer !== null && near.status === 'answered'
    : near.status === 'asking' || near.status === 'answered';
  const follows = has && isSame && !answer.isCurrent && isTold;
  return { near: follows ? before.current!.near : null, follows, touch: () => setReady(true) };
}

/** What the nearest mix hangs on: not the journal, which may be long. The same object for the same bench. */
function nearTexts(texts: BenchTexts): BenchTexts {
  let near = NEAR.get(texts);
  if (near === undefined) {
    const { 'journal.csv': _, ...others } = texts;
    near = others;
    NEAR.set(texts, near);
  }
  return near;
}

const NEAR = new WeakMap<BenchTexts, BenchTexts>();
