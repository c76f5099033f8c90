import { Refusal } from '../../problem.js';
import { type Kind, QUESTIONS } from './questions.js';
import type { Say } from './say.js';

/** The worker: one question after the other, each answered, refused or failed. */
const here = globalThis as unknown as {
  onmessage: (event: { data: { id: number; kind: Kind; asked: never } }) => void;
  postMessage: (reply: unknown) => void;
};

here.onmessage = ({ data: { id, kind, asked } }) => {
  const since = performance.now();
  const question: (asked: never, say: Say) => Promise<unknown> = QUESTIONS[kind];
  question(asked, (step) => here.postMessage({ id, step })).then(
    (answer) => here.postMessage({ id, answer, took: performance.now() - since }),
    (fault: unknown) =>
      here.postMessage(
        fault instanceof Refusal
          ? { id, refused: fault.problems }
          : { id, failed: fault instanceof Error ? fault.message : String(fault) },
      ),
  );
};
