import { join } from 'node:path';
import { type Catalog, findProduct } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { readProducts } from '../catalog/shelf.js';
import { problem } from '../problem.js';
import type { BenchInput } from './bench-input.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import { isFile, readText } from './files.js';
import type { Io } from './io.js';

/** Products to mix from, and what to call them. */
export interface Shelf<P extends Product = Product> {
  name: string;
  products: P[];
}

/** Reads --shelf, or shelf.csv of the bench, then applies --with and --without. */
export function shelfInput(
  given: Given,
  io: Io,
  catalog: Catalog,
  from: BenchInput,
  collected: Collected,
  needed = true,
): Shelf {
  const asked = given.text('shelf');
  const path = asked ?? join(from.folder, 'shelf.csv');
  if (asked === undefined && !isFile(path, io.cwd)) {
    if (!needed || from.faulty) return { name: 'no shelf', products: [] };
    collected.add(
      problem(
        'no-shelf',
        { file: path },
        'no shelf.csv',
        'a list of your products',
        'Name it with --shelf FILE, or put shelf.csv beside bench.yaml.',
      ),
    );
    return { name: path, products: [] };
  }
  const shelf = readShelf(path, io, collected);
  return shelf.products.length === 0 || !given.takes('with') ? shelf : altered(shelf, given, catalog, collected);
}

/** Reads one shelf file. */
export function readShelf(path: string, io: Io, collected: Collected): Shelf {
  const text = collected.attempt(() => readText(path, io.cwd));
  const products = text && collected.take(readProducts(text.text, text.name));
  return { name: text?.name ?? path, products: products ?? [] };
}

function altered(shelf: Shelf, given: Given, catalog: Catalog, collected: Collected): Shelf {
  let { products } = shelf;
  const changes: string[] = [];
  for (const id of given.texts('without')) {
    const gone = collected.take(findProduct(products, id, { field: '--without' }));
    if (!gone) continue;
    products = products.filter((product) => product !== gone);
    changes.push(`without ${gone.id}`);
  }
  for (const id of given.texts('with')) {
    const more = collected.take(findProduct([...catalog.products, ...catalog.salts], id, { field: '--with' }));
    if (!more) continue;
    if (products.some((product) => product.id === more.id)) {
      collected.add(
        problem(
          'on-shelf-already',
          { field: '--with' },
          `"${more.id}"`,
          'a product that is not on the shelf yet',
          'Leave it out of --with.',
        ),
      );
      continue;
    }
    products = [...products, more];
    changes.push(`with ${more.id}`);
  }
  return { name: [shelf.name, ...changes].join(', '), products };
}
