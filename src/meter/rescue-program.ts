import type { Column, LinearProgram, Row } from '../../solver/index.js';
import { costing } from '../feed/price.js';
import type { FeedRequest } from '../feed/request.js';
import { productColumn, waterColumn } from '../feed/terms.js';
import { type Batch, plannedLitres } from './batch.js';
import type { Action, CanLimit } from './can-limits.js';
import { middleLitres, type PossibleCan, quantilesOfSorted } from './posterior.js';
import { stockLeft } from './stock-left.js';

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
export function rescueProgram(asked: RescueAsked): LinearProgram {
  const { columns, room, limits } = partsOf(asked);
  return { columns, rows: [...room, ...limits] };
}

/** Its columns, the rows of the can's room, and one row for each limit, in their order. */
function partsOf({
  request,
  batch,
  limits,
  barred,
  cans,
  sure,
  inside,
  capacityLitres,
  standsAt,
  left = stockLeft(request, batch, cans),
}: RescueAsked): { columns: Column[]; room: Row[]; limits: Row[] } {
  const litres = standsAt ?? middleLitres(cans);
  const costs = costsOf(request, batch);
  const columns: Column[] = [
    { id: 'keep', cost: 0, upper: 1 },
    { id: 'poured', cost: WEIGHTS.poured * litres, upper: 1 },
    { id: 'beyond', cost: WEIGHTS.beyond },
    ...request.waters.map((_, i) => ({ id: waterColumn(i), cost: costs.waters[i]! })),
    ...request.shelf.map((_, i) => {
      const most = barred?.has(i) ? 0 : left[i]!;
      return { id: productColumn(i), cost: costs.products[i]!, ...(Number.isFinite(most) ? { upper: most } : {}) };
    }),
  ];
  const added = Object.fromEntries(request.waters.map((_, i) => [waterColumn(i), 1]));
  const room: Row[] = [
    { id: 'whole', lower: 1, upper: 1, terms: { keep: 1, poured: 1 } },
    { id: 'room', upper: capacityLitres, terms: { keep: litres, ...added } },
    { id: 'enough', lower: leastLitres(batch, litres), terms: { keep: litres, ...added } },
    { id: 'beyond', lower: -plannedLitres(batch), terms: { beyond: 1, ...negative({ keep: litres, ...added }) } },
  ];
  const rows = limits.map((limit, i): Row => {
    const [worst] = quantilesOfSorted(fromLeast(limit, cans), [limit.side === 'least' ? 1 - sure : sure]);
    const terms = nonzero({
      keep: worst!,
      ...Object.fromEntries(limit.waters.map((x, k) => [waterColumn(k), x])),
      ...Object.fromEntries(limit.products.map((x, k) => [productColumn(k), x])),
    });
    const by = inside?.[i] ?? 0;
    return { id: `limit:${i}`, terms, ...(limit.side === 'least' ? { lower: by } : { upper: -by }) };
  });
  return { columns, room, limits: rows };
}

/** What the cans bring to a limit, from least to most. */
function fromLeast(limit: CanLimit, cans: readonly PossibleCan[]): Float64Array {
  const known = SORTED.get(limit) ?? new WeakMap<readonly PossibleCan[], Float64Array>();
  SORTED.set(limit, known);
  const found = known.get(cans) ?? Float64Array.from(cans, limit.ofCan).sort();
  known.set(cans, found);
  return found;
}

/** Asked for by every degree of caution. Kept by all that it depends on, which is never changed: the limit and the cans. */
const SORTED = new WeakMap<CanLimit, WeakMap<readonly PossibleCan[], Float64Array>>();

/**
 * The program of the remedy that stands deepest inside all limits at once, each counted in its own spread; `depth` is the column that tells how
 * many spreads. Its waste is left open.
 */
export function deepestProgram(asked: RescueAsked, spreads: readonly number[]): LinearProgram {
  const { columns, room, limits } = partsOf(asked);
  const inside = limits.map((row, i) => {
    const spread = spreads[i]!;
    return { ...row, terms: nonzero({ ...row.terms, [DEPTH]: row.lower === undefined ? spread : -spread }) };
  });
  return {
    columns: [...columns.map((c) => ({ ...c, cost: c.cost * HARDLY })), { id: DEPTH, cost: -1, upper: DEEP_ENOUGH }],
    rows: [...room, ...inside],
  };
}

export const DEPTH = 'depth';
const DEEP_ENOUGH = 4;
/** So that of two as deep the less wasteful is taken. */
const HARDLY = 1e-3;

/** How the waste of an action on a can of so many litres is counted, in litres thrown away: what the program holds least. */
export function wasteCounter(request: FeedRequest, batch: Batch): (action: Action, litres: number) => number {
  const costs = costsOf(request, batch);
  return ({ keep, water, add }, litres) => {
    const total = keep * litres + water.reduce((a, b) => a + b, 0);
    return (
      WEIGHTS.poured * (1 - keep) * litres +
      WEIGHTS.beyond * Math.max(0, total - plannedLitres(batch)) +
      water.reduce((sum, x, i) => sum + x * costs.waters[i]!, 0) +
      add.reduce((sum, x, i) => sum + x * costs.products[i]!, 0)
    );
  };
}

/** What a litre of each water and a unit of each product weigh. */
function costsOf(request: FeedRequest, batch: Batch): { waters: number[]; products: number[] } {
  const perUnit = costing(request.shelf).perUnit;
  const batchCost = batch.items.reduce((sum, { product, planned }) => {
    const at = request.shelf.findIndex((p) => p.id === product.id);
    return sum + planned * (perUnit[at] ?? 0);
  }, 0);
  const perMoney = batchCost > 0 ? (WEIGHTS.products * plannedLitres(batch)) / batchCost : 0;
  return {
    waters: request.waters.map((w) => WEIGHTS.water + w.pricePerLitre * perMoney),
    products: request.shelf.map((product, i) => {
      const own = batch.items.some((item) => item.product.id === product.id);
      // nothing is free: a product without a price still has to be weighed
      return Math.max(perUnit[i]! * perMoney, LEAST_COST) * (own ? 1 : STRANGER);
    }),
  };
}

/** What a rescue is worked out for. */
export interface RescueAsked {
  request: FeedRequest;
  batch: Batch;
  limits: readonly CanLimit[];
  cans: readonly PossibleCan[];
  /** Places on the shelf that are not to be added. */
  barred?: ReadonlySet<number>;
  /** Share of the cans, per limit, that it shall hold in. */
  sure: number;
  /** How far inside each limit the can shall stand, in the limit's own measure; default nothing. */
  inside?: readonly number[];
  capacityLitres: number;
  /** Litres that the can is told to hold now; default the middle of the cans. */
  standsAt?: number;
  /** g or mL of each product that is left on the shelf, by place; default by the middle of the cans. */
  left?: readonly number[];
}

/** Less is no rescue: nine tenths of the batch, or what there is. */
export const leastLitres = (batch: Batch, litres: number): number => Math.min(ENOUGH * plannedLitres(batch), litres);
const ENOUGH = 0.9;
const LEAST_COST = 1e-4;
/** A product that was not in the plan is one more jar to open. */
const STRANGER = 5;

const negative = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).map(([id, x]) => [id, -x]));
const nonzero = (terms: Record<string, number>): Record<string, number> =>
  Object.fromEntries(Object.entries(terms).filter(([, x]) => x !== 0));
