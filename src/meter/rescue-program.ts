import type { Column, LinearProgram, Row } from '../../solver/index.js';
import { productColumn, waterColumn } from '../formulation/formulate.js';
import { costing } from '../formulation/price.js';
import type { FeedRequest } from '../formulation/request.js';
import type { Batch } from './batch.js';
import type { CanLimit } from './can-limits.js';
import { type PossibleCan, quantiles } from './posterior.js';

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

/**
 * The linear program of a rescue: share kept, litres of water, amounts of products; least poured off, then least beyond the planned volume,
 * water and products. Every limit holds in the worst of the likeliest `sure` of the cans; only the coefficient of the share kept depends on
 * the can, so the worst case of each limit is one number.
 */
export function rescueProgram({
  request,
  batch,
  limits,
  slack,
  barred,
  cans,
  sure,
  capacityLitres,
}: RescueAsked): LinearProgram {
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
      const own = batch.items.find((item) => item.product.id === product.id);
      const planned = own?.planned ?? 0;
      const left = barred?.has(i)
        ? 0
        : product.onHand === undefined
          ? undefined
          : Math.max(0, product.onHand - planned);
      // nothing is free: a product without a price still has to be weighed
      const each = Math.max(cost[i]! * perMoney, LEAST_COST) * (own ? 1 : STRANGER);
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
      const outside = (slack?.[i] ?? 0) * limit.scale;
      return { id: `limit:${i}`, terms, ...(limit.side === 'least' ? { lower: -outside } : { upper: outside }) };
    }),
  ];
  return { columns, rows };
}

/** What a rescue is worked out for. */
export interface RescueAsked {
  request: FeedRequest;
  batch: Batch;
  limits: readonly CanLimit[];
  /** How far outside each limit is allowed, in parts of its scale; default nothing. */
  slack?: readonly number[];
  cans: readonly PossibleCan[];
  /** Places on the shelf that are not to be added. */
  barred?: ReadonlySet<number>;
  /** Share of the cans, per limit, that it shall hold in. */
  sure: number;
  capacityLitres: number;
}

/** Of the planned batch: less is no rescue. */
const ENOUGH = 0.9;
const LEAST_COST = 1e-4;
/** A product that was not in the plan is one more jar to open. */
const STRANGER = 5;

const negative = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).map(([id, x]) => [id, -x]));
const nonzero = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).filter(([, x]) => x !== 0));
