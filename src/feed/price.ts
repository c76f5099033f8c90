import type { ClosedProduct } from '../label/closed-product.js';

/** Money per gram or millilitre, or null where price or pack is unknown. */
export function pricePerUnit(product: ClosedProduct): number | null {
  return product.price === undefined || product.pack === undefined || product.pack <= 0
    ? null
    : product.price / product.pack;
}

/** How the program counts money on this shelf. */
export interface Costing {
  /** `money`, or `mass` where no product on the shelf has a price. */
  counts: 'money' | 'mass';
  /** Cost of one gram or millilitre in the program's objective. */
  perUnit: number[];
  /** Ids counted at the dearest known price because their own is unknown. */
  assumed: string[];
  /** That dearest price per unit, null where none was needed. */
  dearest: number | null;
}

/**
 * A product without a price is counted at the dearest known price of the shelf, so that an unknown never looks cheap;
 * on a shelf without any price the mix with the least dissolved mass is sought instead.
 */
export function costing(shelf: readonly ClosedProduct[]): Costing {
  const known = shelf.map(pricePerUnit);
  const priced = known.filter((p): p is number => p !== null);
  if (priced.length === 0) {
    return { counts: 'mass', perUnit: shelf.map((p) => p.density ?? 1), assumed: [], dearest: null };
  }
  const dearest = Math.max(...priced);
  const assumed = shelf.filter((_, i) => known[i] === null).map((p) => p.id);
  return {
    counts: 'money',
    perUnit: known.map((p) => p ?? dearest),
    assumed,
    dearest: assumed.length > 0 ? dearest : null,
  };
}
