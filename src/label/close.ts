import type { Product } from './product.js';
import type { Ions } from '../chemistry/ions.js';
import { type Ends, ionsOfFormula, ionsOfLabel, type ProductIons } from './counter-ions.js';
import { narrowed } from './narrow.js';
import { ceilingsWithoutList } from './undeclared.js';
import {
  type Closed,
  type Closure,
  closeBySources,
  type Impossible,
  type MakeUp,
  type WholeSpan,
  spanOfCounterIons,
} from './undeclared-by-sources.js';
import { formatNumber } from '../units/format.js';

/**
 * The product with its label closed by the salts it names, or else by every plausible counter-ion: its ions, and how much there may be
 * of what it does not declare. The same object for the same product, so that products still compare by identity.
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
const SPANS = new WeakMap<Product['composition'], Promise<WholeSpan | null>>();

async function close(product: Product): Promise<Product> {
  if (product.ions) return product;
  if (product.formula !== undefined) return { ...product, ions: ionsOf(product) };
  const closure = await closureOf(product);
  if (closure?.verdict === 'closed') {
    const composition = narrowed(product.composition, closure.open, closure.nearest.mg, 'sources');
    return { ...product, composition, ions: ionsOfClosure(closure) };
  }
  const bare = closure === null ? product : withoutList(product);
  const ions = ionsOf(bare);
  const span = await spanOf(product);
  if (span === null) return { ...bare, ions };
  const composition = narrowed(bare.composition, span.open, ions.value, 'label alone');
  const { leastConductive, mostConductive, acid, alkaline, value } = ions;
  // by far most makers name a sodium salt, and do not mix one with chlorides (common practice, no source)
  const usual = { leastConductive, mostConductive, acid, alkaline };
  const ends = { ...ionsAt(span), ...lessExtreme(ions, ionsAt(span)) };
  return { ...product, composition, ions: { value, ...ends, usual, from: ions.from } };
}

/** The product without what a list that cannot be believed had ruled out. */
function withoutList(product: Product): Product {
  const { composition, density } = product;
  const content = { ...composition.content };
  for (const [nutrient, high] of ceilingsWithoutList(composition, density)) {
    content[nutrient] = { ...content[nutrient], high };
  }
  return { ...product, composition: { ...composition, content } };
}

function closureOf(product: Product): Promise<Closure> {
  const { formula, composition, derivedFrom, density, ions } = product;
  const before = CLOSURES.get(composition);
  if (before) return before;
  const settled = formula !== undefined || ions !== undefined;
  const closure = settled ? Promise.resolve(null) : closeBySources(composition, derivedFrom, density);
  CLOSURES.set(composition, closure);
  return closure;
}

function spanOf({ composition, density }: Product): Promise<WholeSpan | null> {
  const before = SPANS.get(composition);
  if (before) return before;
  const span = spanOfCounterIons(composition, density);
  SPANS.set(composition, span);
  return span;
}

function ionsOfClosure({ nearest, usual, ...ends }: Closed): ProductIons {
  return { value: nearest.ions, ...ionsAt(ends), usual: ionsAt(usual), from: 'sources' };
}

const ionsAt = ({ leastConductive, mostConductive, acid, alkaline }: Ends<MakeUp>): Ends<Ions> => ({
  leastConductive: leastConductive.ions,
  mostConductive: mostConductive.ions,
  acid: acid.ions,
  alkaline: alkaline.ions,
});

/**
 * pH without a list: neither an acid that the charges leave over but no plausible salt brings, nor a trace of acid that the figures hide,
 * which would move the pH of nearly pure water by a unit.
 */
function lessExtreme(charges: Ends<Ions>, salts: Ends<Ions>): Pick<Ends<Ions>, 'acid' | 'alkaline'> {
  return {
    acid: charges.acid.alkalinity > salts.acid.alkalinity ? charges.acid : salts.acid,
    alkaline: charges.alkaline.alkalinity < salts.alkaline.alkalinity ? charges.alkaline : salts.alkaline,
  };
}

function disagreement({ off }: Impossible): string {
  const figures = off.map(
    ({ nutrient, declared, nearest }) => `${nutrient} ${formatNumber(nearest, 3)} % for ${formatNumber(declared, 3)} %`,
  );
  return `the salts named cannot make this analysis: the nearest they come is ${figures.join(', ')}`;
}
