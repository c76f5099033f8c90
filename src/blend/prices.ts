import { type LinearProgram, type Optimal, type Row, shadowPrice, solve } from '../../solver/index.js';
import { formatNumber } from '../units/format.js';
import { type Formulated, formulate, type Limit } from '../formulation/formulate.js';
import { productPrices } from './product-prices.js';
import type { FeedRequest } from '../feed/request.js';
import type { LimitPrice, PriceSide, Prices } from '../feed/results.js';

/** A limit binds when the mix stands on its end within this share of it, as the certificate allows. */
const ON_THE_END = 1e-6;
/** A cost or saving below this share of the whole is rounding of the certificate (1e-6). */
const NOTHING = 2e-6;

/**
 * What it costs to insist: for each limit that the cheapest mix stands on, what moving it costs each way, how far that
 * holds, and what lifting it would save; for each product, the prices at which the answer changes. All by re-solving, so
 * that a degenerate answer gets both of its one-sided prices. `answer` is the proved cheapest mix.
 */
export async function pricesOf(request: FeedRequest, answer: Pick<Optimal, 'x' | 'y' | 'objective'>): Promise<Prices> {
  const formulated = formulate(request, { ceilingsAsRows: true });
  const limits: LimitPrice[] = [];
  for (const row of formulated.program.rows) {
    const limit = formulated.limits.get(row.id)!;
    const end = limit.kind === 'water' ? null : bindingEnd(row, answer.x);
    if (end === null) continue;
    const price = await limitPrice(formulated, row, end, answer.objective, request);
    if (price) limits.push(price);
  }
  limits.sort((a, b) => (b.lifted?.saves ?? 0) - (a.lifted?.saves ?? 0));
  return { limits, ...(await productPrices(request, formulated.program, answer)) };
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
  { program, limits }: Formulated,
  row: Row,
  end: 'lower' | 'upper',
  cost: number,
  request: FeedRequest,
): Promise<LimitPrice | null> {
  const limit = limits.get(row.id)!;
  const price = await shadowPrice(program, row.id, end);
  if (price.verdict !== 'price') return null;
  const lifted = await withoutLimit(program, row.id, cost);
  const sides = { left: sideOf(price.left), right: sideOf(price.right) };
  const { currency } = request.header;
  const money = currency === '' ? 'per litre' : `${currency}/L`;
  const unit = unitOf(limit, request);
  return {
    limit: limit.text,
    from: limit.from,
    end: end === 'lower' ? 'least' : 'most',
    bound: row[end]!,
    unit,
    ...sides,
    lifted,
    sentence: sentence(limit, row[end]!, end, sides, lifted, unit, money, cost),
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

/** What one unit of the bound is. */
function unitOf(limit: Limit, request: FeedRequest): string {
  if (limit.kind === 'ec') return 'mS/cm';
  if (limit.kind === 'stock' || limit.kind === 'rate') return `${request.shelf[limit.product!]!.composition.per}/L`;
  return 'mg/L';
}

/** `each mg/L costs 0.00019 EUR/L, from 18 to 23.9; lifting it saves 34.4 %`. */
function sentence(
  limit: Limit,
  bound: number,
  end: 'lower' | 'upper',
  { left, right }: { left: PriceSide; right: PriceSide },
  lifted: LimitPrice['lifted'],
  unit: string,
  money: string,
  cost: number,
): string {
  const [stricter, looser] = end === 'lower' ? [right, left] : [left, right];
  // a rule of proportion has no number of its own to move: what moves is the room it leaves
  const room = limit.kind === 'rule' && bound === 0;
  const paid = (side: PriceSide): string => {
    const price = Math.abs(side.pricePerUnit!);
    const most = price * Math.max(Math.abs(bound), Math.abs((side.limit ?? bound) - bound));
    return most <= NOTHING * cost ? 'nothing' : `${plain(price)} ${money}`;
  };
  const to = (side: PriceSide): string =>
    side.limit === null ? 'without end' : `as far as ${plain(Math.abs(side.limit))}`;
  const parts: string[] = [];
  if (!room && stricter.pricePerUnit !== null && paid(stricter) === paid(looser)) {
    const ends = [left, right].map((side) => (side.limit === null ? 'without end' : plain(side.limit)));
    const each = end === 'lower' ? `each ${unit} costs` : `each ${unit} of room saves`;
    parts.push(
      `${each} ${paid(looser)}, from ${ends[0]} to ${ends[1]}`
        .replace('from without end to', 'up to')
        .replace(/ to without end$/, ' upwards'),
    );
  } else {
    const more = end === 'lower' ? ['more', 'less'] : ['less', 'more'];
    const [up, down] = room ? ['stricter', 'of room'] : more;
    if (stricter.pricePerUnit !== null) parts.push(`each ${unit} ${up} costs ${paid(stricter)} ${to(stricter)}`);
    else if (bound !== 0 || room) parts.push('no mix could keep a stricter one');
    if (looser.pricePerUnit !== null) parts.push(`each ${unit} ${down} saves ${paid(looser)} ${to(looser)}`);
  }
  if (lifted)
    parts.push(lifted.saves > 0 ? `lifting it saves ${plain(100 * lifted.saves)} %` : 'lifting it saves nothing');
  return parts.join('; ');
}

/** Three digits are what a price is read to. */
const plain = (x: number): string => formatNumber(x, 3);
