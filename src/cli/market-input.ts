import type { Catalog } from '../catalog/catalog.js';
import { closeShelf } from '../label/close.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import { warning } from '../problem.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import type { Io } from './io.js';
import { readShelf } from './shelf-input.js';

/** What is for sale. */
export interface Market {
  name: string;
  products: ClosedProduct[];
  /** Everything that was read, to tell a name that is left out from one that is unknown. */
  all: Product[];
  /** What was left out and why, as sentences. */
  notes: string[];
}

/** Reads --market, or takes the salts and products that come with the program; the labels of what can be bought are closed here. */
export async function marketInput(given: Given, io: Io, catalog: Catalog, collected: Collected): Promise<Market> {
  const file = given.text('market');
  const read =
    file === undefined
      ? { name: 'the catalog', products: [...catalog.products, ...catalog.salts] }
      : readShelf(file, io, collected);
  const reasons = new Map<string, number>();
  const forSale = read.products.filter((product) => {
    const why = leftOut(product);
    if (why !== null) reasons.set(why, (reasons.get(why) ?? 0) + 1);
    return why === null;
  });
  if (file !== undefined && read.products.length > 0 && forSale.length === 0) {
    collected.add(
      warning(
        'market-empty',
        { file: read.name },
        'no row with pack and price',
        'products that can be bought',
        'Fill in pack and price; only the shelf is used.',
      ),
    );
  }
  const told = [...reasons].map(([why, count]) => `${count} ${why}`).join(', ');
  return {
    name: read.name,
    products: await closeShelf(forSale),
    all: read.products,
    notes: told === '' ? [] : [`Left out of the market: ${told}.`],
  };
}

function leftOut(product: Product): string | null {
  if (product.pack === undefined || product.price === undefined) return 'without pack or price';
  if (product.kind === 'acid' || product.kind === 'alkali') return 'for changing pH (acids and alkalis)';
  const { Co, Ni } = product.composition.content;
  // their own salts hold a fifth and more of the metal; a trace mix holds far less
  return Co.low > 50 || Ni.low > 50 ? 'salts of cobalt or nickel' : null;
}
