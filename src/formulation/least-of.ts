import { solve, type Verdict } from '../../solver/index.js';
import type { FeedRequest } from '../feed/request.js';
import { amountsOf } from './amounts.js';
import { withSecondLook } from './ec-cap.js';
import { type Formulated, type FormulateOptions, leansOnEc } from './formulate.js';

/** A verdict with the program that it is about. */
export interface Told {
  formulated: Formulated;
  verdict: Verdict;
}

/**
 * The least of Σ cost · amount over all mixes that keep the limits, the EC cap by the full model; the most of something is the least of
 * its opposite.
 * @param costs by column, of the products and waters in the order of the request; null: what they cost
 */
export async function leastOf(
  request: FeedRequest,
  costs: Readonly<Record<string, number>> | null,
  options: FormulateOptions = {},
): Promise<Told> {
  const run = async (formulated: Formulated): Promise<Told> => {
    const { columns, rows } = formulated.program;
    const counted = costs === null ? columns : columns.map((c) => ({ ...c, cost: costs[c.id] ?? 0 }));
    return { formulated, verdict: await solve({ rows, columns: counted }) };
  };
  const capped = await withSecondLook(
    request,
    run,
    ({ verdict, formulated }) => (verdict.verdict === 'optimal' ? amountsOf(verdict, formulated) : null),
    ({ verdict, formulated }) => {
      if (verdict.verdict !== 'infeasible') return 'no';
      return leansOnEc(formulated, verdict.ray) ? 'may be' : 'no part';
    },
    options,
  );
  return capped.result;
}
