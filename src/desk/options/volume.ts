import type { Checked, Where } from '../../problem.js';
import { isWithin, type Millilitres, parseAmount, rangeText } from '../../units/index.js';
import { refused } from './refused.js';

/** A jug for a stock solution, from 10 mL to 200 L, in mL. */
export const parseJug = (text: string, where: Where): Checked<Millilitres> =>
  volume(text, where, 'jug', 'Write for example "500 mL".');

/** A level spoon up to 100 mL, in mL. */
export const parseSpoon = (text: string, where: Where): Checked<Millilitres> =>
  volume(text, where, 'spoon', 'Write for example "1/4 tsp".');

/** A volume in mL within its bounds; `name` is also the code of the refusal. */
function volume(text: string, where: Where, name: 'jug' | 'spoon', fix: string): Checked<Millilitres> {
  const read = parseAmount(text, { where });
  if (!read.ok) return read;
  if (read.value.kind === 'volume' && isWithin(name, read.value.millilitres))
    return { ...read, value: read.value.millilitres };
  return refused(name, where, `"${text}"`, `a volume ${rangeText(name)}`, fix);
}
