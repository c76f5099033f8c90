import type { Optimal } from '../../solver/index.js';
import type { Amounts } from '../can/mix-amounts.js';
import { withoutDust } from './dust.js';
import type { Formulated } from './formulate.js';

/**
 * Column values of an answer as amounts in shelf and water order, without an engine's rounding.
 * @param column the answer's name for a column of the program, where it has another
 */
export function amountsOf(
  { x }: Pick<Optimal, 'x'>,
  formulated: Formulated,
  column: (id: string) => string = (id) => id,
): Amounts {
  const read = (ids: ReadonlyMap<string, number>): number[] =>
    [...ids.keys()].map((id) => Math.max(0, x[column(id)] ?? 0));
  return withoutDust({ products: read(formulated.products), waters: read(formulated.waters) }, formulated);
}
