import { atDoor } from '../door.js';
import type { Catalog } from '../catalog/catalog.js';
import { readProducts } from '../catalog/shelf.js';
import type { Product } from '../label/product.js';
import { problem } from '../problem.js';
import type { BenchFiles, TextFile } from './bench-files.js';
import type { Collected } from './collected.js';
import { readWish } from './options/read-wish.js';
import { stocked } from './stock-left.js';
import type { Wishes } from './wishes.js';

/** Products to mix from, and what to call them. */
export interface Shelf<P extends Product = Product> {
  name: string;
  products: P[];
}

/**
 * Reads the shelf, then applies `with` and `without`.
 * @param missed whether to say that there is none
 */
export function shelfOf(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog,
  collected: Collected,
  missed: boolean,
): Shelf {
  if (files.shelf === undefined) {
    if (!missed) return { name: 'no shelf', products: [] };
    const place = files.shelfPlace ?? 'shelf.csv';
    collected.add(
      problem(
        'no-shelf',
        { file: place },
        'no shelf.csv',
        'a list of your products',
        atDoor({
          typed: 'Name it with --shelf FILE, or put shelf.csv beside bench.yaml.',
          page: 'Put your first label on the shelf.',
        }),
      ),
    );
    return { name: place, products: [] };
  }
  const shelf = stocked(readShelf(files.shelf, collected), files, collected);
  return shelf.products.length === 0 ? shelf : altered(shelf, wishes, catalog, collected);
}

/** Reads one shelf file; nothing stands on one that could not be read. */
export function readShelf(file: TextFile | null, collected: Collected): Shelf {
  const products = file === null ? undefined : collected.take(readProducts(file.text, file.name));
  return { name: file?.name ?? '', products: products ?? [] };
}

function altered(shelf: Shelf, wishes: Wishes, catalog: Catalog, collected: Collected): Shelf {
  let { products } = shelf;
  const changes: string[] = [];
  for (const id of wishes.without ?? []) {
    const gone = collected.take(readWish('without', id, { among: products }));
    if (!gone) continue;
    products = products.filter((product) => product !== gone);
    changes.push(`without ${gone.id}`);
  }
  for (const id of wishes.with ?? []) {
    const more = collected.take(readWish('with', id, { among: [...catalog.products, ...catalog.salts] }));
    if (!more) continue;
    if (products.some((product) => product.id === more.id)) {
      collected.add(
        problem(
          'on-shelf-already',
          { field: '--with' },
          `"${more.id}"`,
          'a product that is not on the shelf yet',
          atDoor({ typed: 'Leave it out of --with.', page: 'It stands there already.' }),
        ),
      );
      continue;
    }
    products = [...products, more];
    changes.push(`with ${more.id}`);
  }
  return { name: [shelf.name, ...changes].join(', '), products };
}
