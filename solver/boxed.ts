import { boxes } from './boxes.js';
import type { LinearProgram, Verdict } from './program.js';
import { solve } from './solve.js';
import { tabulate } from './table.js';
import { verdict } from './verdict.js';
import { warm } from './warm.js';

/** One linear program, asked again and again with other bounds of its columns. */
export interface Boxed {
  /** The verdict with these ends, in the order of the columns; each question starts where the one before ended. */
  within(ends: Box): Promise<Verdict>;
}

interface Box {
  lower: number[];
  upper: number[];
}

/**
 * A program whose rows and costs stay; no end may be wider than its own. Where several points are equally good, which of them is told may hang
 * on what was asked before; each is certified like any answer of `solve`, and what the certificate does not accept is left to that. Throws a
 * ProgramError as that does.
 */
export function boxed(program: LinearProgram): Boxed {
  const table = tabulate(program);
  const walk = table.integer.some(Boolean) ? null : warm(table);
  // what the rows imply within the widest ends holds within all others, so that no proof has to look again
  const implied = boxes(table);
  const least = implied.lower.map((end, j) => (table.lower[j] === Number.NEGATIVE_INFINITY ? end : table.lower[j]!));
  const most = implied.upper.map((end, j) => (table.upper[j] === Number.POSITIVE_INFINITY ? end : table.upper[j]!));
  return {
    async within({ lower, upper }) {
      const answer = walk?.answer({
        lower: lower.map((end, j) => (end === Number.NEGATIVE_INFINITY ? least[j]! : end)),
        upper: upper.map((end, j) => (end === Number.POSITIVE_INFINITY ? Math.max(most[j]!, lower[j]!) : end)),
      });
      if (answer) {
        const by = { engine: 'the bounded dual simplex method' };
        return verdict(
          program,
          answer.verdict === 'optimal' ? { ...answer, ...by, boundBy: 'multipliers' } : { ...answer, ...by },
        );
      }
      return solve({
        ...program,
        columns: program.columns.map((column, j) => ({ ...column, lower: lower[j]!, upper: upper[j]! })),
      });
    },
  };
}
