import { Refusal } from '../../problem.js';
import { type Kind, QUESTIONS } from './questions.js';
import type { Pause, Say } from './say.js';

type Told = { id: number; kind: Kind; asked: never } | { leave: number };

/** The worker: one question after the other, each answered, refused, given up or failed. */
const here = globalThis as unknown as {
  onmessage: (event: { data: Told }) => void;
  postMessage: (reply: unknown) => void;
};

/** The question that nobody wants answered any more. */
let left = 0;

class GivenUp extends Error {}

/** Lets messages in, and ends a question that is not wanted any more. */
const pausing =
  (id: number): Pause =>
  async () => {
    await new Promise((done) => setTimeout(done));
    if (left === id) throw new GivenUp();
  };

here.onmessage = ({ data }) => {
  if ('leave' in data) {
    left = data.leave;
    return;
  }
  const { id, kind, asked } = data;
  const since = performance.now();
  const question: (asked: never, say: Say, pause: Pause) => Promise<unknown> = QUESTIONS[kind];
  question(asked, (step) => here.postMessage({ id, step }), pausing(id)).then(
    (answer) => here.postMessage({ id, answer, took: performance.now() - since }),
    (fault: unknown) =>
      here.postMessage(
        fault instanceof GivenUp
          ? { id, givenUp: true }
          : fault instanceof Refusal
            ? { id, refused: fault.problems }
            : { id, failed: fault instanceof Error ? fault.message : String(fault) },
      ),
  );
};
