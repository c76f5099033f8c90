import { dosedByPen, type PenOnCan } from '../advice/dosed-by-pen.js';
import type { ReadRecipeBy, Recipe, WrittenRecipe } from '../advice/recipe.js';
import type { Catalog } from '../catalog/catalog.js';
import type { Product } from '../label/product.js';
import { closeRecipe } from './close-labels.js';
import type { Collected } from './collected.js';
import { gallonOf } from './gallon.js';
import type { OpenBench } from './opened.js';
import { recipeProducts } from './recipe-products.js';

/** What the words of a recipe are read by: products, kit, and the scale of the pen that was used. */
export const recipeReadBy = (
  { shelf, kit, feeds }: Pick<OpenBench, 'shelf' | 'kit' | 'feeds'>,
  catalog: Catalog,
  scale: number | null,
): { among: Product[] } & ReadRecipeBy => ({
  among: recipeProducts(shelf, catalog),
  kit,
  scale,
  gallon: gallonOf({ feeds, kit }),
  onShelf: new Set(shelf.products.map(({ id }) => id)),
});

/** A recipe with its labels closed, and every reading of the pen turned into an amount in the waters of the bench; undefined where it was refused. */
export async function dosedRecipe(
  recipe: WrittenRecipe<Product> | undefined,
  { waters }: Pick<OpenBench, 'waters'>,
  collected: Collected,
  pen: PenOnCan = {},
): Promise<Recipe | undefined> {
  // without a water there is nothing to start from, which was told already
  if (recipe === undefined || waters.length === 0) return undefined;
  return collected.take(dosedByPen(await closeRecipe(recipe), waters, pen, { field: 'recipe' }));
}
