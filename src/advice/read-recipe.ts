import type { Product } from '../label/product.js';
import type { Checked, Where } from '../problem.js';
import { withGallon } from './named-gallon.js';
import { parseRecipe } from './recipe.js';
import type { ReadRecipeBy, WrittenRecipe } from './recipe-types.js';
import { readSpoken } from './spoken/read-spoken.js';
import { sharesAsked } from './spoken/shares.js';

/** A recipe as it is written in a book of recipes or as people say it; see `parseRecipe` and `readSpoken`. Every problem at once. */
export function readRecipe<P extends Product>(
  told: string,
  products: readonly P[],
  by: ReadRecipeBy = {},
  where: Where = {},
): Checked<WrittenRecipe<P>> {
  const written = withGallon(told, by.gallon);
  const plain = parseRecipe(written, products, by, where);
  if (plain.ok) return plain;
  const spoken = readSpoken(written, products, by, where);
  if (spoken !== null) return spoken;
  const asked = sharesAsked(written, products, by, where);
  return asked === null ? plain : { ok: false, problems: asked };
}
