import type { Answer, Desk } from '../desk.js';
import type { Kind } from '../work/questions.js';
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
      return <Problems problems={answer.problems} />;
    default:
      return null;
  }
}
