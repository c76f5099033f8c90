import type { Product } from '../../label/product.js';
import type { Checked } from '../../problem.js';
import { identityOf } from '../../units/index.js';
import type { Draft } from './entry.js';
import { foldJournal, type JournalText } from './read.js';

/** What a journal makes of one product. */
export interface StockChange {
  /** As the journal names it. */
  id: string;
  unit: 'g' | 'mL';
  /** g or mL as counted last; null where it never was. */
  counted: number | null;
  /** The day it was counted. */
  on: string | null;
  /** g or mL since then, or since the journal's first line: used, and bought. */
  used: number;
  bought: number;
  /** Batches since then that used it. */
  batches: number;
}

/** Adds an entry that is live to what the journal makes of each product, by the name's identity. */
export function stockWith(stock: Map<string, StockChange>, { kind, items, date }: Draft): void {
  if (kind !== 'batch' && kind !== 'bought' && kind !== 'counted') return;
  for (const { id, amount, unit } of items) {
    const line = lineFor(stock, id, unit);
    if (kind === 'batch') {
      line.used += amount;
      line.batches += 1;
    } else if (kind === 'bought') line.bought += amount;
    else Object.assign(line, { counted: amount, on: date, used: 0, bought: 0, batches: 0 });
  }
}

/** Ids are mostly written alike: what they come to is looked up once. */
function lineFor(stock: Map<string, StockChange>, id: string, unit: StockChange['unit']): StockChange {
  const same = stock.get(id);
  if (same) return same;
  const key = identityOf(id);
  const known = stock.get(key) ?? { id, unit, counted: null, on: null, used: 0, bought: 0, batches: 0 };
  stock.set(key, known);
  stock.set(id, known);
  return known;
}

/** What a journal makes of the stock: by product, in the order of their first entries. */
export function stockChanges(journal: JournalText): Checked<StockChange[]> {
  const stock = new Map<string, StockChange>();
  const read = foldJournal(journal, (entry, isLive) => {
    if (isLive) stockWith(stock, entry);
  });
  return read.ok ? { ...read, value: [...new Set(stock.values())] } : read;
}

/** g or mL left of a product of which the shelf says `onHand`; null where nobody ever said how much there was. May be below zero. */
export function leftOf(onHand: number | undefined, change: StockChange | undefined): number | null {
  const start = change?.counted ?? onHand;
  return start === undefined ? null : start + (change?.bought ?? 0) - (change?.used ?? 0);
}

/** What is asked of a product of the shelf. */
export type OnShelf = Pick<Product, 'id' | 'name' | 'form' | 'onHand'>;

/** A product of the shelf with what is left of it. */
export interface StockLeft {
  id: string;
  name: string;
  unit: 'g' | 'mL';
  /** As the shelf says; null where it says nothing. */
  onHand: number | null;
  /** What the journal makes of it; null where it tells nothing of it. */
  change: StockChange | null;
  /** g or mL; null where nobody ever said how much there was. Below zero where more was used than was there. */
  left: number | null;
}

/**
 * What is left of each product: what the shelf said at the first line of the journal, or what was counted last, with everything bought and
 * used since.
 */
export function stockLeft(products: readonly OnShelf[], changes: readonly StockChange[]): StockLeft[] {
  const byIdentity = new Map(changes.map((change) => [identityOf(change.id), change]));
  return products.map(({ id, name, form, onHand }) => {
    const unit = form === 'powder' ? 'g' : 'mL';
    const told = byIdentity.get(identityOf(id));
    // a row that was a powder and is a liquid now is another product
    const change = told?.unit === unit ? told : undefined;
    return { id, name, unit, onHand: onHand ?? null, change: change ?? null, left: leftOf(onHand, change) };
  });
}
