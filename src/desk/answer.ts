import type { Problem } from '../problem.js';

/** What a question about one thing came to. */
export interface Answer<Result> {
  /** False where what was asked cannot be had (exit code 3 of the command line); the result then says why. */
  met: boolean;
  result: Result;
  /** What was read with a note: assumed, left out or understood in a certain way. */
  warnings: readonly Problem[];
}

/** What a question about every feed that was meant came to, in the order of the bench. */
export interface Answers<Result> {
  /** False where it cannot be had for one of them at least. */
  met: boolean;
  results: Result[];
  warnings: readonly Problem[];
}
