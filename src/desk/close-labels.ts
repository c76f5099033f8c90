import type { Recipe } from '../advice/recipe.js';
import { closeShelf } from '../label/close.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';

/**
 * The one place where rows become closed products: of shelf, market, recipe and labels alike, once in a command. Some eight small
 * programs each, so rows of the catalog are closed only where they are used.
 */
export function closeLabels(rows: readonly Product[]): Promise<ClosedProduct[]> {
  return closeShelf(rows);
}

/** The recipe with the labels closed that it names. */
export async function closeRecipe(recipe: Recipe<Product>): Promise<Recipe> {
  const named = [...new Set(recipe.lines.map(({ product }) => product))];
  const closed = await closeLabels(named);
  return {
    ...recipe,
    lines: recipe.lines.map((line) => ({ ...line, product: closed[named.indexOf(line.product)]! })),
  };
}
