import type { LinearProgram, Row } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from '../formulation/index.js';
import { aimsOf } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';

/** The column that holds the largest relative miss from the aims. */
export const WORST = 'worst';

/**
 * How near aims can be met, as a share of them: the limits of the feed, and a column `worst` with |stated content − aim| ≤ worst · aim for every
 * nutrient with an aim. Costs are those of the feed.
 */
export function missProgram(formulated: Formulated): LinearProgram {
  const { request } = formulated;
  const rows: Row[] = [...formulated.program.rows];
  for (const [nutrient, aim] of aimsOf(request.programme)) {
    const terms = statedTerms(request, nutrient);
    rows.push({ id: `over:${nutrient}`, upper: aim, terms: { ...terms, [WORST]: -aim } });
    rows.push({ id: `under:${nutrient}`, lower: aim, terms: { ...terms, [WORST]: aim } });
  }
  return { columns: [...formulated.program.columns, { id: WORST, cost: 0 }], rows };
}

/** How far each nutrient with an aim lies from it, as a share of the aim; `high` tells the side. */
export function missesFromAims(
  request: FeedRequest,
  x: Readonly<Record<string, number>>,
): { nutrient: Nutrient; miss: number; high: boolean }[] {
  return aimsOf(request.programme).map(([nutrient, aim]) => {
    const held = Object.entries(statedTerms(request, nutrient)).reduce((sum, [id, a]) => sum + a * (x[id] ?? 0), 0);
    return { nutrient, miss: Math.abs(held - aim) / aim, high: held > aim };
  });
}

function statedTerms(request: FeedRequest, nutrient: Nutrient): Record<string, number> {
  return termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), 'stated');
}
