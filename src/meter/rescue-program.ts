import type { Column, LinearProgram, Row } from '../../solver/index.js';
import { formulate, productColumn, waterColumn } from '../formulation/formulate.js';
import { costing } from '../formulation/price.js';
import type { FeedRequest } from '../formulation/request.js';
import type { Batch } from './batch.js';
import { type PossibleCan, quantiles } from './posterior.js';

/** What is done to a can. */
export interface Action {
  /** Share of the can that stays, 0 to 1; the rest is poured off first. */
  keep: number;
  /** Litres added of each water, in the order of the request. */
  water: number[];
  /** g or mL added of each shelf product. */
  add: number[];
}

/** One limit on the final can, made linear by multiplying with its volume: Σ coefficient · column ≥ 0 (`least`) or ≤ 0 (`most`). */
export interface CanLimit {
  id: string;
  text: string;
  side: 'least' | 'most';
  /** Per unit of each shelf product and per litre of each water. */
  products: number[];
  waters: number[];
  /** What the whole can brings, for a can. */
  ofCan: (can: PossibleCan) => number;
  /** What the parts of the planned can come to, signs aside: the size that a miss is measured by. */
  scale: number;
}

/** What weighs how much, in litres thrown away. */
const WEIGHTS = {
  /** Each litre poured off. */
  poured: 1,
  /** Each litre beyond the planned batch: it has to be used up. */
  beyond: 0.3,
  /** Each litre of water added, so that none is added for nothing. */
  water: 0.02,
  /** A batch's worth of products counts as this share of the batch. */
  products: 0.3,
} as const;

/** Every limit of the feed on a can of which part is kept; those named are left aside. */
export function canLimits(request: FeedRequest, batch: Batch, without: ReadonlySet<string>): CanLimit[] {
  const formulated = formulate(request, { ceilingsAsRows: true });
  const places = batch.items.map(({ product }) => request.shelf.findIndex((p) => p.id === product.id));
  const shares = request.waters.map((w) => batch.waters.find(({ water }) => water.id === w.id)?.share ?? 0);
  return formulated.program.rows.flatMap((row): CanLimit[] => {
    const limit = formulated.limits.get(row.id)!;
    if (limit.kind === 'water' || limit.kind === 'stock' || without.has(row.id)) return [];
    const products = request.shelf.map((_, i) => row.terms[productColumn(i)] ?? 0);
    const waters = request.waters.map((_, i) => row.terms[waterColumn(i)] ?? 0);
    const ofWater = shares.reduce((sum, share, i) => sum + share * waters[i]!, 0);
    return (['least', 'most'] as const).flatMap((side) => {
      const bound = side === 'least' ? row.lower : row.upper;
      if (bound === undefined) return [];
      return {
        id: row.id,
        text: limit.text,
        side,
        products,
        waters: waters.map((w) => w - bound),
        scale: batch.items.reduce(
          (sum, { planned }, i) => sum + planned * Math.abs(products[places[i]!] ?? 0),
          batch.litres * (Math.abs(ofWater) + Math.abs(bound)),
        ),
        ofCan: ({ amounts, litres }) =>
          amounts.reduce((sum, x, i) => sum + x * (products[places[i]!] ?? 0), litres * (ofWater - bound)),
      };
    });
  });
}

/**
 * The linear program of a rescue: share kept, litres of water, amounts of products; least poured off, then least beyond the planned volume,
 * water and products. Every limit holds in the worst of the likeliest `sure` of the cans; only the coefficient of the share kept depends on
 * the can, so the worst case of each limit is one number.
 */
export function rescueProgram(
  request: FeedRequest,
  batch: Batch,
  limits: readonly CanLimit[],
  cans: readonly PossibleCan[],
  sure: number,
  capacityLitres: number,
): LinearProgram {
  const [litres] = quantiles(
    cans.map((can) => can.litres),
    [0.5],
  );
  const cost = costing(request.shelf).perUnit;
  const batchCost = batch.items.reduce((sum, { product, planned }) => {
    const at = request.shelf.findIndex((p) => p.id === product.id);
    return sum + planned * (cost[at] ?? 0);
  }, 0);
  const perMoney = batchCost > 0 ? (WEIGHTS.products * batch.litres) / batchCost : 0;
  const columns: Column[] = [
    { id: 'keep', cost: 0, upper: 1 },
    { id: 'poured', cost: WEIGHTS.poured * litres!, upper: 1 },
    { id: 'beyond', cost: WEIGHTS.beyond },
    ...request.waters.map((w, i) => ({ id: waterColumn(i), cost: WEIGHTS.water + w.pricePerLitre * perMoney })),
    ...request.shelf.map((product, i) => {
      const planned = batch.items.find((item) => item.product.id === product.id)?.planned ?? 0;
      const left = product.onHand === undefined ? undefined : Math.max(0, product.onHand - planned);
      // nothing is free: a product without a price still has to be weighed
      const each = Math.max(cost[i]! * perMoney, LEAST_COST);
      return { id: productColumn(i), cost: each, ...(left === undefined ? {} : { upper: left }) };
    }),
  ];
  const added = Object.fromEntries(request.waters.map((_, i) => [waterColumn(i), 1]));
  const rows: Row[] = [
    { id: 'whole', lower: 1, upper: 1, terms: { keep: 1, poured: 1 } },
    { id: 'room', upper: capacityLitres, terms: { keep: litres!, ...added } },
    { id: 'enough', lower: Math.min(ENOUGH * batch.litres, litres!), terms: { keep: litres!, ...added } },
    { id: 'beyond', lower: -batch.litres, terms: { beyond: 1, ...negative({ keep: litres!, ...added }) } },
    ...limits.map((limit, i): Row => {
      const of = cans.map(limit.ofCan);
      const [worst] = quantiles(of, [limit.side === 'least' ? 1 - sure : sure]);
      const terms = nonzero({
        keep: worst!,
        ...Object.fromEntries(limit.waters.map((x, k) => [waterColumn(k), x])),
        ...Object.fromEntries(limit.products.map((x, k) => [productColumn(k), x])),
      });
      return { id: `limit:${i}`, terms, ...(limit.side === 'least' ? { lower: 0 } : { upper: 0 }) };
    }),
  ];
  return { columns, rows };
}

/** Of the planned batch: less is no rescue. */
const ENOUGH = 0.9;
const LEAST_COST = 1e-4;

/** For each can, how far inside each limit it is after an action, in parts of the limit's scale; negative is outside. */
export function margins(
  limits: readonly CanLimit[],
  action: Action,
  ofCans: readonly (readonly number[])[],
): number[][] {
  const added = limits.map(
    ({ products, waters }) =>
      products.reduce((sum, x, i) => sum + x * action.add[i]!, 0) +
      waters.reduce((sum, x, i) => sum + x * action.water[i]!, 0),
  );
  return ofCans.map((ofCan) =>
    limits.map(({ side, scale }, l) => {
      const sum = action.keep * ofCan[l]! + added[l]!;
      return scale === 0 ? 0 : (side === 'least' ? sum : -sum) / scale;
    }),
  );
}

/** What every can brings to every limit. */
export const canTable = (limits: readonly CanLimit[], cans: readonly PossibleCan[]): number[][] =>
  cans.map((can) => limits.map((limit) => limit.ofCan(can)));

/** Whether margins are all kept, each within its allowance (default none). */
export const kept = (of: readonly number[], allowances?: readonly number[]): boolean =>
  of.every((x, l) => x >= -KEPT - (allowances?.[l] ?? 0));

/** Whether a can keeps every limit after an action. */
export function keepsAll(limits: readonly CanLimit[], can: PossibleCan, action: Action): boolean {
  return kept(margins(limits, action, canTable(limits, [can]))[0]!);
}

/** As the certificate allows. */
const KEPT = 1e-6;

const negative = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).map(([id, x]) => [id, -x]));
const nonzero = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).filter(([, x]) => x !== 0));
