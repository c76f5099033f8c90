import type { Amounts } from '../can/mix-amounts.js';
import { toolsOf } from '../dose/tools.js';
import { leastMeasured } from '../dose/open-items.js';
import { leastByPen } from '../dose/plan-by-pen.js';
import type { PlanSettled } from '../feed/settled.js';
import { costing } from '../feed/price.js';
import type { FeedRequest } from '../feed/request.js';
import { amountsOf, cheapest, type FeedFound, fullEc, programOn } from '../formulation/index.js';
import { ecCap } from '../feed/request.js';
import type { Branches } from '../feed/proof.js';
import { fewestItems } from './fewest-items.js';
import type { Hands } from './handed.js';

/** The least money, and of what costs hardly more the fewest items. */
export interface Thrifty {
  /** What was asked: the limits, moved in or not, and the widths. */
  held: FeedRequest;
  amounts: Amounts;
  /** The cheapest of all, with its certificate. */
  answer: FeedFound;
  /** What `amounts` cost, per litre, as the program counts it. */
  cost: number;
  /** Fewer items were sought up to this cost per litre; null where they were not. */
  mostCost: number | null;
  items: number;
  /** The search for fewer; null where they were not sought. */
  branches: Branches | null;
}

/** A feed with fewer items may cost a tenth more, or a hundredth of the currency a can, whichever is more. */
const TENTH = 0.1;
const CENT = 0.01;

/** What may be spent for less bother: cost per litre as the program counts it. @param times the usual share and the usual cent */
export function allowance(cost: number, { shelf, header }: Pick<FeedRequest, 'shelf' | 'header'>, times = 1): number {
  const perLitre = costing(shelf).counts === 'money' && header.batchLitres ? CENT / header.batchLitres : 0;
  return cost + times * Math.max(TENTH * cost, perLitre);
}

/** The least of each product that these hands can measure, in the order of the shelf: g or mL per litre. */
export function leastPerLitre(request: FeedRequest, { kit, known, pen, bottles }: Hands): number[] {
  const tools = toolsOf(kit);
  return request.shelf.map((product) => {
    const measured = leastMeasured(product, tools, known);
    const steered = pen ? leastByPen(product, request, pen, known) : null;
    const bottled = bottles?.get(product.id)?.[0]?.amount;
    return Math.min(measured, steered ?? measured, bottled ?? measured) / (request.header.batchLitres ?? 1);
  });
}

/**
 * The cheapest mix of a request, then the fewest items for hardly more; no item is below what the kit can measure. Null where no mix is found.
 * @param least see `leastPerLitre`
 * @param times the usual allowance that may be spent on it
 */
export async function thrifty(request: FeedRequest, least: readonly number[], times = 1): Promise<Thrifty | null> {
  const answer = await cheapest(request);
  if (answer.answer !== 'found') return null;
  const formulated = programOn(request, answer.linearisation);
  const { program, products } = formulated;
  const mostCost = allowance(answer.optimal.objective, request, times);
  const cost = Object.fromEntries(program.columns.filter((c) => c.cost !== 0).map((c) => [c.id, c.cost]));
  const capped = { columns: program.columns, rows: [...program.rows, { id: 'cost', upper: mostCost, terms: cost }] };
  const measured = new Map([...products].map(([id, i]) => [id, least[i]!]));
  const found = await fewestItems(capped, [...products.keys()], measured);
  // what the kit can measure may take more products than were asked for
  if (found === null || found.best.items.size > (request.atMost ?? Number.POSITIVE_INFINITY))
    return alone(request, answer);
  const amounts = amountsOf(found.best.answer, formulated);
  const cap = ecCap(request);
  if (cap !== null && fullEc(amounts, request) > cap * (1 + 1e-6)) return alone(request, answer);
  return {
    held: request,
    amounts,
    answer,
    cost: found.best.answer.objective,
    mostCost,
    items: found.best.items.size,
    branches: found.branches,
  };
}

/** What a proof tells of the fewest items; null where they were not sought. */
export const fewestOf = ({ mostCost, items, branches }: Thrifty): PlanSettled['fewest'] =>
  mostCost === null || branches === null ? null : { items, mostCost, branches };

/** A mix in which fewer items were not sought. */
export function alone(held: FeedRequest, answer: FeedFound): Thrifty {
  const { amounts, optimal } = answer;
  const items = amounts.products.filter((x) => x > 0).length;
  return { held, amounts, answer, cost: optimal.objective, mostCost: null, items, branches: null };
}
