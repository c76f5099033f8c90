import type { Catalog } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { withBulkDensity } from '../dose/density.js';
import { productsKnown } from './doses-of-feed.js';
import type { FeedInputs } from './feed-input.js';

/**
 * What a recipe may name: the shelf, and what the catalog holds under ids that the shelf does not use. As on the sheet, the catalog's bulk density
 * stands in, with its spread, where the shelf knows none.
 */
export function recipeProducts(inputs: FeedInputs, catalog: Catalog): Product[] {
  const taken = new Set(inputs.shelf.products.map((product) => product.id));
  const known = productsKnown(catalog);
  return [
    ...inputs.shelf.products.map((product) => withBulkDensity(product, known)),
    ...known.filter((product) => !taken.has(product.id)),
  ];
}
