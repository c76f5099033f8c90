import type { ClosedProduct } from '../label/closed-product.js';
import type { PurchaseRequest } from './types.js';

/** A product that may be used: from the shelf, from the market, or from both under one id. */
export interface Candidate {
  /** Composition of the shelf's label where there is one; pack and price of the market where it sells it. No `onHand`. */
  product: ClosedProduct;
  /** g or mL on hand: 0 where it is not on the shelf, null where the shelf does not say. */
  onHand: number | null;
  isOnShelf: boolean;
  /** Set where it may be bought. */
  offer: { pack: number; price: number } | null;
  /** Must be bought. */
  isNeeded: boolean;
}

/** Shelf and market as one list: the shelf first, in its order. */
export function poolOf(request: PurchaseRequest): Candidate[] {
  const { isPriced = true } = request;
  const banned = new Set(request.ban);
  const needed = new Set(request.need);
  const offers = new Map(request.market.map((product) => [product.id, product]));
  const candidate = (product: ClosedProduct, isOnShelf: boolean): Candidate => {
    const sold = banned.has(product.id) ? undefined : offers.get(product.id);
    const offer =
      sold?.pack !== undefined && sold.price !== undefined && sold.composition.per === product.composition.per
        ? { pack: sold.pack, price: isPriced ? sold.price : 1 }
        : null;
    return {
      product: product.with({ onHand: undefined, ...(offer && (isPriced ? offer : unpriced(product, offer))) }),
      onHand: isOnShelf ? (product.onHand ?? null) : 0,
      isOnShelf,
      offer,
      isNeeded: needed.has(product.id),
    };
  };
  const owned = new Set(request.shelf.map((product) => product.id));
  return [
    ...request.shelf.map((product) => candidate(product, true)),
    ...request.market
      .filter((product) => !owned.has(product.id) && !banned.has(product.id))
      .map((product) => candidate(product, false)),
  ];
}

/** What stands on the shelf keeps the price that its own row says. */
const unpriced = (
  { pack, price, onHand }: ClosedProduct,
  offer: { pack: number },
): { pack: number; price: number | undefined } =>
  onHand !== undefined && pack !== undefined ? { pack, price } : { pack: offer.pack, price: undefined };
