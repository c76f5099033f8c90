import type { Optimal } from '../../solver/index.js';
import type { Formulated } from './formulate.js';
import type { Amounts } from '../can/mix-amounts.js';

/** Column values of an answer as amounts in shelf and water order. */
export function amountsOf(answer: Pick<Optimal, 'x'>, formulated: Pick<Formulated, 'products' | 'waters'>): Amounts {
  const read = (ids: ReadonlyMap<string, number>): number[] =>
    [...ids.keys()].map((id) => Math.max(0, answer.x[id] ?? 0));
  return { products: read(formulated.products), waters: read(formulated.waters) };
}
