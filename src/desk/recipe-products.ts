import type { Catalog } from '../catalog/catalog.js';
import { withBulkDensity } from '../dose/density.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import type { Shelf } from './shelf.js';

/**
 * What a recipe may name: the shelf, and what the catalog holds under ids that the shelf does not use. As on the sheet, the catalog's bulk
 * density stands in, with its spread, where the shelf knows none.
 */
export function recipeProducts({ products }: Shelf<ClosedProduct>, catalog: Catalog): Product[] {
  const taken = new Set(products.map((product) => product.id));
  const known = productsKnown(catalog);
  return [
    ...products.map((product) => withBulkDensity(product, known)),
    ...known.filter((product) => !taken.has(product.id)),
  ];
}

/** Products whose bulk densities stand in where the shelf knows none. */
export const productsKnown = (catalog: Catalog): Product[] => [...catalog.products, ...catalog.salts];
