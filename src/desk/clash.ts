import { type Problem, problem } from '../problem.js';
import { dashed } from './options/option.js';

/** Two wishes that cannot stand together. */
export function clash(wish: string, other: string, why: string): Problem {
  const [one, two] = [dashed(wish), dashed(other)];
  return problem('options-clash', { field: one }, `${one} and ${two}`, why, `Leave out ${one} or ${two}.`);
}
