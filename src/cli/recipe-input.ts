import type { Catalog } from '../catalog/catalog.js';
import type { Product } from '../catalog/product.js';
import type { FeedInputs } from './feed-input.js';

/** What a recipe may name: the shelf, and what the catalog holds under ids that the shelf does not use. */
export function recipeProducts(inputs: FeedInputs, catalog: Catalog): Product[] {
  const taken = new Set(inputs.shelf.products.map((product) => product.id));
  return [
    ...inputs.shelf.products,
    ...[...catalog.products, ...catalog.salts].filter((product) => !taken.has(product.id)),
  ];
}
