import { type Problem, problem } from '../problem.js';
import { optionOf } from './wishes.js';

/** Two wishes that cannot stand together. */
export function clash(wish: string, other: string, why: string): Problem {
  const [one, two] = [optionOf(wish), optionOf(other)];
  return problem('options-clash', { field: one }, `${one} and ${two}`, why, `Leave out ${one} or ${two}.`);
}
