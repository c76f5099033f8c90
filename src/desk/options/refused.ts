import { type Checked, problem, type Where } from '../../problem.js';
import { commaNotes, type Read } from '../../units/index.js';

/** One error as the outcome of a reading. */
export const refused = <T>(code: string, where: Where, found: string, expected: string, fix: string): Checked<T> => ({
  ok: false,
  problems: [problem(code, where, found, expected, fix)],
});

/** What a text was read as, with a note where that took a decimal comma. */
export const taken = <T>(value: T, read: Read<unknown> & { ok: true }, where: Where): Checked<T> => ({
  ok: true,
  value,
  warnings: commaNotes(read.comma, where),
});

/** A text that is not what the option asks for. A number that can be read two ways is told as that. */
export const refusedText = <T>(
  text: string,
  read: Read<unknown>,
  code: string,
  where: Where,
  expected: string,
  fix: string,
): Checked<T> =>
  !read.ok && read.why === 'unclear'
    ? refused(code, where, read.found, read.expected, read.fix)
    : refused(code, where, `"${text}"`, expected, fix);
