import { expect } from 'vitest';
import { type Checked, type Problem, problemLine, unwrap } from '../../src/problem.js';

/** Every problem of a result as a grower reads it, errors and warnings alike. */
export function told(result: Checked<unknown>): string[] {
  return problemsOf(result).map(problemLine);
}

export function problemsOf(result: Checked<unknown>): Problem[] {
  return result.ok ? result.warnings : result.problems;
}

/** `code@line` of every problem. */
export function codes(problems: readonly Problem[]): string[] {
  return problems.map((p) => `${p.code}@${p.where.line ?? '-'}`);
}

/** The value, and no problem of any kind. */
export function clean<T>(result: Checked<T>): T {
  expect(told(result)).toEqual([]);
  return unwrap(result);
}

/** The value, whatever the warnings. */
export function taken<T>(result: Checked<T>): T {
  if (!result.ok) throw new Error(told(result).join('\n'));
  return result.value;
}
