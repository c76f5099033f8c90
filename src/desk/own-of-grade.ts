import { productsOfGrade } from '../advice/named-product.js';
import type { Advice } from '../advice/types.js';
import { withBulkDensity } from '../dose/density.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { OpenBench } from './opened.js';
import { productsKnown } from './recipe-products.js';

/** Products on the shelf of the grade that advice names. */
export function ownOfGrade(
  { grade }: Advice,
  { shelf, catalog }: Pick<OpenBench, 'shelf' | 'catalog'>,
): ClosedProduct[] {
  if (grade === null) return [];
  const { products } = shelf;
  const known = productsKnown(catalog);
  return productsOfGrade(grade.text, products, new Set(products.map(({ id }) => id))).map((product) =>
    withBulkDensity(product, known),
  );
}
