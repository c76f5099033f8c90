import type { Product } from '../label/product.js';
import { type Problem, problem, type Where, warning } from '../problem.js';
import { productNamed, productsNear } from './named-product.js';
import type { ReadRecipeBy } from './recipe-types.js';

/** What lines are read with. */
export interface Reading<P> extends ReadRecipeBy {
  products: readonly P[];
  where: Where;
  problems: Problem[];
}

/** The one product that a name means; undefined where it was refused. */
export function productOf<P extends Product>(
  name: string,
  { products, onShelf, where, problems }: Reading<P>,
): P | undefined | null {
  const { found, others } = productNamed(name, products, onShelf);
  if (found.length === 0) return null;
  if (found.length > 1) {
    problems.push(
      problem(
        'recipe-product',
        where,
        `"${name}"`,
        'one product',
        `It may be ${found.map((p) => p.id).join(' or ')}: write the id.`,
      ),
    );
    return undefined;
  }
  const [product] = found;
  if (others.length > 0) {
    const but = others
      .slice(0, 3)
      .map((p) => p.id)
      .join(', ');
    problems.push(
      warning(
        'recipe-product',
        where,
        `"${name}"`,
        'an id or a whole name',
        `Read as ${product!.id}, not as ${but}; write the id to be sure.`,
      ),
    );
  }
  return product;
}

/** The refusal of a name that no product answers to. */
export function unknownProduct(
  part: string,
  name: string,
  { products, where }: Pick<Reading<Product>, 'products' | 'where'>,
): Problem {
  const guesses = productsNear(name, products);
  return problem(
    'recipe-product',
    where,
    `"${part}"`,
    'an amount and a product of the shelf',
    guesses.length > 0 ? `Did you mean ${guesses.join(' or ')}?` : `Known: ${listed(products)}.`,
  );
}

function listed(products: readonly Product[]): string {
  const ids = products.slice(0, 12).map((p) => p.id);
  return ids.join(', ') + (products.length > 12 ? ` and ${products.length - 12} more` : '');
}
