import { type Problem, problem, type Where } from '../problem.js';

/** Carries one refusal of a rule up from where it was found. */
export class NotLinear extends Error {
  private readonly parts: [string, string, string];
  constructor(found: string, expected: string, fix: string) {
    super(found);
    this.parts = [found, expected, fix];
  }
  problem(where: Where): Problem {
    return problem('rule', where, ...this.parts);
  }
}
