import { solve, type Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { aimsOf } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { amountsOf, ecRowOf, type Formulated, type FormulateOptions, withSecondLook } from '../formulation/index.js';
import { missProgram, WORST } from './miss-program.js';

/** How near a shelf comes to some aims. */
export interface AimsTold {
  formulated: Formulated;
  /** Of the least largest miss; its multipliers tell what keeps the aims away. */
  verdict: Verdict;
  /** That miss, as a share of the aim; null where no mix keeps the limits, or none was brought under the EC cap. */
  miss: number | null;
}

/**
 * The least possible largest miss from the aims, counted on what labels state, the EC cap kept by the full model.
 * @param options which limits are kept; `lifted`: ids of rows that are left out too
 * @param among the nutrients whose aims count
 * @returns null where there is no such aim
 */
export async function nearestToAims(
  request: FeedRequest,
  among: readonly Nutrient[],
  { lifted = [], ...options }: FormulateOptions & { lifted?: readonly string[] } = {},
): Promise<AimsTold | null> {
  const asked = withAims(request, among);
  if (aimsOf(asked.programme).length === 0) return null;
  const { result, keeps } = await withSecondLook(
    asked,
    async (formulated): Promise<{ formulated: Formulated; verdict: Verdict }> => {
      const { columns, rows } = missProgram(formulated);
      const counted = columns.map((c) => ({ ...c, cost: c.id === WORST ? 1 : 0 }));
      return {
        formulated,
        verdict: await solve({ columns: counted, rows: rows.filter(({ id }) => !lifted.includes(id)) }),
      };
    },
    ({ formulated, verdict }) => (verdict.verdict === 'optimal' ? amountsOf(verdict, formulated) : null),
    ({ formulated, verdict }) => {
      if (verdict.verdict !== 'infeasible') return 'no';
      return (verdict.ray[ecRowOf(formulated)?.id ?? ''] ?? 0) === 0 ? 'no part' : 'may be';
    },
    options,
  );
  const { verdict } = result;
  return { ...result, miss: verdict.verdict === 'optimal' && keeps ? Math.max(0, verdict.objective) : null };
}

function withAims(request: FeedRequest, among: readonly Nutrient[]): FeedRequest {
  const bands = Object.entries(request.programme.bands).map(([n, { aim, ...ends }]) => [
    n,
    among.includes(n as Nutrient) && aim !== undefined ? { ...ends, aim } : ends,
  ]);
  return { ...request, programme: { ...request.programme, bands: Object.fromEntries(bands) } };
}
