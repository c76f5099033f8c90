import { type Checked, problem, type Where } from '../../problem.js';

/** One error as the outcome of a reading. */
export const refused = <T>(code: string, where: Where, found: string, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, found, expected, fix)],
});
