import type { WrittenRecipe } from '../advice/recipe.js';
import { closeShelf } from '../label/close.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { Product } from '../label/product.js';
import { refuseUnlike } from '../wrong-type.js';

/**
 * The products of rows, with their labels closed: of shelf, market, recipe and labels alike, once in a command, and nowhere else. What
 * closing solves for the labels of the catalog was solved when that was compiled.
 */
export async function closeLabels(rows: readonly Product[]): Promise<ClosedProduct[]> {
  refuseUnlike({ rows }, { rows: [{ id: 'text', composition: { content: 'object' }, derivedFrom: 'list' }] });
  const { compiledLabels } = await import('./compiled-labels.js');
  return closeShelf(rows, compiledLabels);
}

/** The recipe with the labels closed that it names. */
export async function closeRecipe(recipe: WrittenRecipe<Product>): Promise<WrittenRecipe<ClosedProduct>> {
  const named = [...new Set(recipe.lines.map(({ product }) => product))];
  const closed = await closeLabels(named);
  return {
    ...recipe,
    lines: recipe.lines.map((line) => ({ ...line, product: closed[named.indexOf(line.product)]! })),
  };
}
