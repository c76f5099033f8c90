import type { Answer, Desk } from '../desk.js';
import type { Kind } from '../work/questions.js';
import type { Problem } from '../../problem.js';
import { remember } from '../actions.js';
import { Problems } from './problems.js';

/** What is known of a question that has no answer yet: that it is worked on, with a way to stop it; why it was refused; that it failed. */
export function Waiting<K extends Kind>({ answer, desk, channel }: { answer: Answer<K>; desk: Desk; channel: string }) {
  switch (answer.status) {
    case 'asking':
      return (
        <p class="waiting">
          <span class="dots" aria-hidden="true" /> Working it out{answer.said && `: ${answer.said}`}…
          <button type="button" class="small" onClick={() => desk.asking.stop(channel)}>
            Stop
          </button>
        </p>
      );
    case 'stopped':
      return <p class="waiting">Stopped. Change anything and it is worked out anew.</p>;
    case 'failed':
      return <p class="bad">That went wrong, by a fault of ours: {answer.said}.</p>;
    case 'refused':
      return (
        <>
          <Problems problems={answer.problems} />
          <Mend problems={answer.problems} desk={desk} />
        </>
      );
    default:
      return null;
  }
}

/** The way to where it is mended. */
function Mend({ problems, desk }: { problems: readonly Problem[]; desk: Desk }) {
  const place = problems.flatMap(({ where }) => (where.file === undefined ? [] : (MENDED_IN[where.file] ?? [])))[0];
  if (place === undefined) return null;
  return (
    <button type="button" class="main" onClick={() => desk.change((s) => remember(s, 'place', place))}>
      Mend it in {place === 'plants' ? 'Plants' : 'Shelf'}
    </button>
  );
}

const MENDED_IN: Readonly<Record<string, 'plants' | 'shelf'>> = { 'bench.yaml': 'plants', 'shelf.csv': 'shelf' };
