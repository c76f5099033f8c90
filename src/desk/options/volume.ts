import type { Checked, Where } from '../../problem.js';
import { type Millilitres, parseAmount } from '../../units/index.js';
import { refused } from './refused.js';

/** A jug for a stock solution, from 10 mL to 200 L, in mL. */
export const parseJug = (text: string, where: Where): Checked<Millilitres> =>
  volume(text, where, (mL) => mL >= 10 && mL <= 200_000, JUG);

/** A level spoon up to 100 mL, in mL. */
export const parseSpoon = (text: string, where: Where): Checked<Millilitres> =>
  volume(text, where, (mL) => mL > 0 && mL <= 100, SPOON);

/** Code, what is expected, and how to mend it. */
type Wanted = readonly [code: string, expected: string, fix: string];
const JUG: Wanted = ['jug', 'a volume from 10 mL to 200 L', 'Write for example "500 mL".'];
const SPOON: Wanted = ['spoon', 'a spoon up to 100 mL', 'Write for example "1/4 tsp".'];

/** A volume in mL that is `right`. */
function volume(
  text: string,
  where: Where,
  right: (millilitres: number) => boolean,
  [code, expected, fix]: Wanted,
): Checked<Millilitres> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  if (read.value.kind === 'volume' && right(read.value.millilitres)) return { ...read, value: read.value.millilitres };
  return refused(code, where, `"${text}"`, expected, fix);
}
