import { type LinearProgram, type Optimal, type Row, shadowPrice, solve } from '../../solver/index.js';
import { type Limited, programOn } from '../formulation/index.js';
import { productPrices } from './product-prices.js';
import type { FeedRequest } from '../feed/request.js';
import type { LimitPrice, PriceSide, Prices } from '../feed/results.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';

/** A limit binds when the mix stands on its end within this share of it, as the certificate allows. */
const ON_THE_END = 1e-6;
/** A cost or saving below this share of the whole is rounding of the certificate (1e-6). */
const NOTHING = 2e-6;

/**
 * What it costs to insist: for each limit that the cheapest mix stands on, what moving it costs each way, how far that
 * holds, and what lifting it would save; for each product, the prices at which the answer changes. All by re-solving, so
 * that a degenerate answer gets both of its one-sided prices. `answer` is the proved cheapest mix.
 */
export async function pricesOf(
  request: FeedRequest,
  linearisation: EcLinearisation | null,
  answer: Pick<Optimal, 'x' | 'y' | 'objective'>,
): Promise<Prices> {
  const formulated = programOn(request, linearisation, { ceilingsAsRows: true });
  const { program, limited } = formulated;
  const limits: LimitPrice[] = [];
  for (const { limit, row } of limited) {
    const end = limit.kind === 'water' ? null : bindingEnd(row, answer.x);
    if (end === null) continue;
    const price = await limitPrice(program, { limit, row }, end, answer.objective);
    if (price) limits.push(price);
  }
  limits.sort((a, b) => (b.lifted?.saves ?? 0) - (a.lifted?.saves ?? 0));
  return { cost: answer.objective, limits, ...(await productPrices(formulated, answer)) };
}

/** The end of a row that a mix stands on, if any. */
function bindingEnd(row: Row, x: Readonly<Record<string, number>>): 'lower' | 'upper' | null {
  const parts = Object.entries(row.terms).map(([id, a]) => a * (x[id] ?? 0));
  const value = parts.reduce((sum, part) => sum + part, 0);
  const size = parts.reduce((sum, part) => sum + Math.abs(part), 0);
  const at = (end: number | undefined): boolean =>
    end !== undefined && Math.abs(value - end) <= ON_THE_END * Math.max(Math.abs(end), size);
  return at(row.lower) ? 'lower' : at(row.upper) ? 'upper' : null;
}

async function limitPrice(
  program: LinearProgram,
  { limit, row }: Limited,
  end: 'lower' | 'upper',
  cost: number,
): Promise<LimitPrice | null> {
  const price = await shadowPrice(program, row.id, end);
  if (price.verdict !== 'price') return null;
  return {
    limit,
    end: end === 'lower' ? 'least' : 'most',
    bound: row[end]!,
    left: sideOf(price.left),
    right: sideOf(price.right),
    lifted: await withoutLimit(program, row.id, cost),
  };
}

function sideOf(side: { price: number | null; limit: number | null }): PriceSide {
  return { pricePerUnit: side.price, limit: side.limit };
}

/** The cost with the whole row gone (both ends), and the share saved. */
async function withoutLimit(program: LinearProgram, row: string, cost: number): Promise<LimitPrice['lifted']> {
  const free = await solve({ ...program, rows: program.rows.filter(({ id }) => id !== row) });
  if (free.verdict !== 'optimal') return null;
  const saved = cost > 0 ? (cost - free.objective) / cost : 0;
  return { costPerLitre: free.objective, saves: saved > NOTHING ? saved : 0 };
}
