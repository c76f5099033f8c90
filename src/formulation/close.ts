import type { Product } from '../catalog/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { type Closed, type Closure, closeBySources, type Impossible } from '../label/undeclared-by-sources.js';
import { ionsOfFormula, ionsOfLabel, type ProductIons } from '../label/counter-ions.js';
import { formatNumber } from '../units/format.js';

/** g/mL taken for a liquid of unknown density: the densest on sale (from memory), so that the mass never excludes a make-up wrongly. */
const DENSEST = 2.2;

/**
 * The product with its label closed by the salts it names: its ions, and ceilings of undeclared sulfur, sodium and chloride where
 * the list narrows them. The same object for the same product, so that products still compare by identity.
 */
export function closeProduct(product: Product): Promise<Product> {
  const before = CLOSED.get(product);
  if (before) return before;
  const closed = close(product);
  CLOSED.set(product, closed);
  closed.then((result) => CLOSED.set(result, closed));
  return closed;
}

/** Every product of a shelf, closed. */
export function closeShelf(shelf: readonly Product[]): Promise<Product[]> {
  return Promise.all(shelf.map(closeProduct));
}

/** The ions of a product: by its formula or list where it has been closed, else by every plausible counter-ion. */
export function ionsOf(product: Product): ProductIons {
  if (product.ions) return product.ions;
  const known = IONS.get(product);
  if (known) return known;
  const { formula, composition } = product;
  const ions = (formula === undefined ? null : ionsOfFormula(formula, composition)) ?? ionsOfLabel(composition);
  IONS.set(product, ions);
  return ions;
}

/** What is wrong between a list of sources and the figures, as a sentence; null where nothing is. */
export async function sourcesDisagree(product: Product): Promise<string | null> {
  const closure = await closureOf(product);
  return closure?.verdict === 'impossible' ? disagreement(closure) : null;
}

const CLOSED = new WeakMap<Product, Promise<Product>>();
const IONS = new WeakMap<Product, ProductIons>();
const CLOSURES = new WeakMap<Product['composition'], Promise<Closure>>();

async function close(product: Product): Promise<Product> {
  const closure = await closureOf(product);
  if (closure === null || closure.verdict === 'impossible') {
    return product.ions ? product : { ...product, ions: ionsOf(product) };
  }
  return { ...product, composition: narrowed(product, closure), ions: ionsOfClosure(closure) };
}

function closureOf(product: Product): Promise<Closure> {
  const before = CLOSURES.get(product.composition);
  if (before) return before;
  const { formula, composition, derivedFrom } = product;
  const most = composition.per === 'g' ? 1000 : 1000 * (product.density ?? DENSEST);
  const closure =
    formula !== undefined || product.ions !== undefined
      ? Promise.resolve(null)
      : closeBySources(composition, derivedFrom, most);
  CLOSURES.set(composition, closure);
  return closure;
}

function ionsOfClosure({ nearest, dim, bright, acid, alkaline }: Closed): ProductIons {
  return {
    value: nearest.ions,
    dim: dim.ions,
    bright: bright.ions,
    acid: acid.ions,
    alkaline: alkaline.ions,
    from: 'sources',
  };
}

/** Ceilings fall to what the named salts can bring; what counts towards a minimum stays none, as the label does not guarantee it. */
function narrowed({ composition }: Product, { open }: Closed): Product['composition'] {
  const content = { ...composition.content };
  const sentences = [...composition.open];
  for (const [nutrient, { high }] of open) {
    const before = content[nutrient];
    if (!(high < before.high * (1 - 1e-3))) continue;
    content[nutrient] = { ...before, high: Math.max(before.low, high) };
    const at = sentences.findIndex((s) => s.startsWith(`${nutrient} is not stated: between`));
    const says = sentence(nutrient, high, composition.per);
    if (at < 0) sentences.push(says);
    else sentences[at] = says;
  }
  return { ...composition, content, open: sentences };
}

function sentence(nutrient: Nutrient, high: number, per: 'g' | 'mL'): string {
  if (!(high > 1e-6)) return `${nutrient} is not stated, and the salts named bring none.`;
  return `${nutrient} is not stated: at most ${formatNumber(high, 2)} mg/${per} by the salts named.`;
}

function disagreement({ off }: Impossible): string {
  const figures = off.map(
    ({ nutrient, declared, nearest }) => `${nutrient} ${formatNumber(nearest, 3)} % for ${formatNumber(declared, 3)} %`,
  );
  return `the salts named cannot make this analysis: the nearest they come is ${figures.join(', ')}`;
}
