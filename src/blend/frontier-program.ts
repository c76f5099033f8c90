import type { LinearProgram, Optimal, Row } from '../../solver/index.js';
import { solve } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from '../formulation/index.js';
import { aimsOf } from '../feed/near.js';
import type { FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';

/** The column that holds the largest relative miss from the aims. */
export const WORST = 'worst';

/** A mix that is cheapest for its closeness: the miss and cost it has, by arithmetic on its amounts. */
export interface Vertex {
  miss: number;
  cost: number;
  answer: Optimal;
}

/**
 * Cost against closeness: the limits of the feed, and a column `worst` with |stated content − aim| ≤ worst · aim for every
 * nutrient with an aim. Costs are those of the feed.
 */
export function frontierProgram(formulated: Formulated): LinearProgram {
  const { request } = formulated;
  const rows: Row[] = [...formulated.program.rows];
  for (const [nutrient, aim] of aimsOf(request.programme)) {
    const terms = statedTerms(request, nutrient);
    rows.push({ id: `over:${nutrient}`, upper: aim, terms: { ...terms, [WORST]: -aim } });
    rows.push({ id: `under:${nutrient}`, lower: aim, terms: { ...terms, [WORST]: aim } });
  }
  return { columns: [...formulated.program.columns, { id: WORST, cost: 0 }], rows };
}

/** The best mix when each unit of cost counts `money` and each unit of largest miss `miss`. */
export async function weighted(
  program: LinearProgram,
  request: FeedRequest,
  money: number,
  miss: number,
): Promise<Vertex | null> {
  const columns = program.columns.map((c) => ({ ...c, cost: c.id === WORST ? miss : money * c.cost }));
  const answer = await solve({ columns, rows: program.rows });
  return answer.verdict === 'optimal' ? vertexOf(program, request, answer) : null;
}

/** The miss and the cost of a mix, whatever it was sought for. */
export function vertexOf(program: LinearProgram, request: FeedRequest, answer: Optimal): Vertex {
  const cost = program.columns.reduce((sum, c) => sum + c.cost * answer.x[c.id]!, 0);
  return { miss: Math.max(0, ...missesFromAims(request, answer.x).map((m) => m.miss)), cost, answer };
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
