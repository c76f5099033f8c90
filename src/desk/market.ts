import type { Catalog } from '../catalog/catalog.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import { warning } from '../problem.js';
import type { BenchFiles } from './bench-files.js';
import { closeLabels } from './close-labels.js';
import { CATALOG_CURRENCY } from './currencies.js';
import type { OpenBench } from './opened.js';
import type { Collected } from './collected.js';
import type { Stop } from '../feed/proof.js';
import type { LeftOutNote, OtherCurrencyNote, PurchaseOptions } from '../purchase/types.js';
import { readShelf } from './shelf.js';

/** What is for sale. */
export interface Market {
  name: string;
  /** Rows that can be bought; their labels are not closed yet. */
  products: Product[];
  /** Everything that was read, to tell a name that is left out from one that is unknown. */
  all: Product[];
  /** What was left out and why. */
  notes: (LeftOutNote | OtherCurrencyNote)[];
  /** False where its prices are in another currency than the bench's: they are left out, and packs are counted instead. */
  isPriced: boolean;
}

/** Reads the market, or takes the salts and products of the catalog. */
export function marketOf(
  files: BenchFiles,
  catalog: Catalog,
  { currency }: Pick<OpenBench, 'currency'>,
  collected: Collected,
): Market {
  const isPriced = files.market !== undefined || IN_ITS_CURRENCY.includes(currency.trim().toUpperCase());
  const read =
    files.market === undefined
      ? { name: 'the catalog', products: [...catalog.products, ...catalog.salts] }
      : readShelf(files.market, collected);
  const reasons = new Map<Reason, number>();
  const forSale = read.products.filter((product) => {
    const why = leftOut(product);
    if (why !== null) reasons.set(why, (reasons.get(why) ?? 0) + 1);
    return why === null;
  });
  if (files.market && read.products.length > 0 && forSale.length === 0) {
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
  const of = [...reasons].map(([why, count]) => ({ why, count }));
  return {
    name: read.name,
    products: forSale,
    all: read.products,
    notes: [
      ...(of.length === 0 ? [] : [{ kind: 'left out', of } as const]),
      ...(isPriced ? [] : [{ kind: 'other currency', of: CATALOG_CURRENCY, bench: currency } as const]),
    ],
    isPriced,
  };
}

/** Where no currency is named, no sum mixes two. */
const IN_ITS_CURRENCY = ['', CATALOG_CURRENCY, '€'];

/** Labels that are closed between two looks at the clock. */
const AT_ONCE = 20;

/** The labels of what can be bought, closed; `stopped` where the seconds were over before the last one. */
export async function closeMarket(
  { products }: Market,
  options: PurchaseOptions = {},
): Promise<{ closed: ClosedProduct[]; stopped?: Stop }> {
  const closed: ClosedProduct[] = [];
  while (closed.length < products.length) {
    if ((options.secondsLeft?.() ?? 1) <= 0)
      return { closed, stopped: { by: 'labels', read: closed.length, of: products.length } };
    closed.push(...(await closeLabels(products.slice(closed.length, closed.length + AT_ONCE))));
  }
  return { closed };
}

type Reason = LeftOutNote['of'][number]['why'];

function leftOut(product: Product): Reason | null {
  if (product.pack === undefined || product.price === undefined) return 'no pack or price';
  if (product.kind === 'acid' || product.kind === 'alkali') return 'acid or alkali';
  const { Co, Ni } = product.composition.content;
  // their own salts hold a fifth and more of the metal; a trace mix holds far less
  return Co.low > 50 || Ni.low > 50 ? 'cobalt or nickel' : null;
}
