import type { Checked } from '../../problem.js';
import type { LabelRead } from '../../report/start.js';
import type { Wishes } from '../wishes.js';

/** One thing that is asked of a grower who begins. */
export interface Question {
  /** Tells it from the others; with it in `answered`, it is not asked again. */
  key: string;
  says: string;
  /** True where the answer is a text of several lines. */
  block?: true;
  /** What is known with the answer, or every Problem with it; an empty one leaves it to be assumed. */
  take: (answer: string) => Promise<Checked<Answered>>;
}

/** What is known after an answer. */
export interface Answered {
  wishes: Wishes;
  /** The label that the answer told, as it was read. */
  label?: LabelRead;
}
