import { programOn } from '../formulation/index.js';
import type { FeedRequest } from '../feed/request.js';
import { productColumn, waterColumn } from '../feed/terms.js';
import type { Batch } from './batch.js';
import type { PossibleCan } from './posterior.js';
import type { EcLinearisation } from '../feed/ec-linearisation.js';
import type { Limit } from '../feed/limits.js';

/** What is done to a can. */
export interface Action {
  /** Share of the can that stays, 0 to 1; the rest is poured off first. */
  keep: number;
  /** Litres added of each water, in the order of the request. */
  water: number[];
  /** g or mL added of each shelf product. */
  add: number[];
  /** Litres, as marks of the jug, that it is poured off and filled up to, whatever it held; `keep` and `water` are those of the likeliest can. */
  pourTo?: number;
  fillTo?: number;
}

/** One limit on the final can, made linear by multiplying with its volume: Σ coefficient · column ≥ 0 (`least`) or ≤ 0 (`most`). */
export interface CanLimit {
  id: string;
  limit: Limit;
  side: 'least' | 'most';
  /** Per unit of each shelf product and per litre of each water. */
  products: number[];
  waters: number[];
  /** What the whole can brings, for a can. */
  ofCan: (can: PossibleCan) => number;
  /** What the parts of the planned can come to, signs aside: the size that a violation is measured by. */
  scale: number;
}

/** Limits moved out, by `keyOf`: how far, in the limit's own measure per litre. */
export type MovedLimits = ReadonlyMap<string, number>;

/** Both sides of one row are limits of their own. */
export const keyOf = ({ id, side }: Pick<CanLimit, 'id' | 'side'>): string => `${side}:${id}`;

/**
 * Every limit of the feed on a can of which part is kept.
 * @param linearisation what stands for the EC of the can; null without a cap
 */
export function canLimits(
  request: FeedRequest,
  linearisation: EcLinearisation | null,
  batch: Batch,
  moved: MovedLimits = new Map(),
): CanLimit[] {
  const { limited } = programOn(request, linearisation, { ceilingsAsRows: true });
  const places = batch.items.map(({ product }) => request.shelf.findIndex((p) => p.id === product.id));
  const sharesOf = (of: Batch['waters']): number[] =>
    request.waters.map((w) => of.find(({ water }) => water.id === w.id)?.share ?? 0);
  const shares = sharesOf(batch.waters);
  return limited.flatMap(({ limit, row }): CanLimit[] => {
    if (limit.kind === 'water' || limit.kind === 'stock') return [];
    const products = request.shelf.map((_, i) => row.terms[productColumn(i)] ?? 0);
    const waters = request.waters.map((_, i) => row.terms[waterColumn(i)] ?? 0);
    const bringsOf = (own: readonly number[]): number => own.reduce((sum, share, i) => sum + share * waters[i]!, 0);
    const ofPlanned = bringsOf(shares);
    const ofOther = new Map<Batch['waters'], number>();
    const ofWater = (of: Batch['waters'] | undefined): number => {
      if (of === undefined) return ofPlanned;
      const known = ofOther.get(of) ?? bringsOf(sharesOf(of));
      ofOther.set(of, known);
      return known;
    };
    return (['least', 'most'] as const).flatMap((side) => {
      const own = side === 'least' ? row.lower : row.upper;
      if (own === undefined) return [];
      const by = moved.get(keyOf({ id: row.id, side })) ?? 0;
      const bound = side === 'least' ? own - by : own + by;
      return {
        id: row.id,
        limit,
        side,
        products,
        waters: waters.map((w) => w - bound),
        scale: batch.items.reduce(
          (sum, { planned }, i) => sum + planned * Math.abs(products[places[i]!] ?? 0),
          batch.litres * (Math.abs(ofPlanned) + Math.abs(bound)),
        ),
        ofCan: ({ amounts, litres, waters: of }) =>
          amounts.reduce((sum, x, i) => sum + x * (products[places[i]!] ?? 0), litres * (ofWater(of) - bound)),
      };
    });
  });
}

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
export const KEPT = 1e-6;
