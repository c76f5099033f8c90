import type { Composition } from './composition.js';
import { ClosedProduct, type Disagreement } from './closed-product.js';
import type { Label, Product } from './product.js';
import type { Ions } from '../chemistry/ions.js';
import { type Ends, ionsOfFormula, ionsOfLabel, type ProductIons } from './counter-ions.js';
import { measuredIons } from './measured-ions.js';
import { narrowed } from './narrow.js';
import { ceilingsWithoutList } from './undeclared.js';
import { type Closed, closeBySources, type MakeUp, spanOfCounterIons } from './undeclared-by-sources.js';

/**
 * The product with its label closed by its formula, by the salts it names, or else by every plausible counter-ion: its ions, and how
 * much there may be of what it does not declare. Some eight small programs, so a product is closed once, where it comes in. One that is
 * closed already stays as it is.
 */
export async function closeProduct(product: Product): Promise<ClosedProduct> {
  if (ClosedProduct.is(product)) return product;
  // nothing that happens to the row while its programs are solved gets in
  const { composition, derivedFrom, formula, density, ec } = product;
  const label = { composition: structuredClone(composition), derivedFrom: [...derivedFrom], formula, density, ec };
  const jar = { ...product };
  const { ions, disagreement, ...closed } = await closureOf(label);
  return new ClosedProduct(jar, {
    ...label,
    ions,
    disagreement,
    composition: closed.composition,
    measuredIons: ec === undefined ? undefined : measuredIons(ec, ions.value),
  });
}

/** Every product of a shelf, closed. */
export function closeShelf(shelf: readonly Product[]): Promise<ClosedProduct[]> {
  return Promise.all(shelf.map(closeProduct));
}

interface Closure {
  composition: Composition;
  ions: ProductIons;
  disagreement?: Disagreement;
}

async function closureOf(label: Label): Promise<Closure> {
  const { composition, formula, derivedFrom, density } = label;
  if (formula !== undefined) return { composition, ions: bareIons(label) };
  const bySources = await closeBySources(composition, derivedFrom, density);
  if (bySources?.verdict === 'closed') {
    const narrow = narrowed(composition, bySources.open, bySources.nearest.mg, 'sources');
    return { composition: narrow, ions: ionsOfClosure(bySources) };
  }
  // what a list ruled out that cannot be believed, or that is no longer there, is possible again
  const bare = bySources === null && derivedFrom.length > 0 ? label : withoutList(label);
  const disagreement = bySources?.off;
  const ions = bareIons(bare);
  const span = await spanOfCounterIons(composition, density);
  if (span === null) return { composition: bare.composition, ions, disagreement };
  const narrow = narrowed(bare.composition, span.open, ions.value, 'label alone');
  const { leastConductive, mostConductive, acid, alkaline, value } = ions;
  // by far most makers name a sodium salt, and do not mix one with chlorides (common practice, no source)
  const usual = { leastConductive, mostConductive, acid, alkaline };
  const ends = { ...ionsAt(span), ...lessExtreme(ions, ionsAt(span)) };
  return { composition: narrow, ions: { value, ...ends, usual, from: ions.from }, disagreement };
}

/** By the formula, else by the charges that the figures leave over. */
function bareIons({ formula, composition }: Label): ProductIons {
  return (formula === undefined ? null : ionsOfFormula(formula, composition)) ?? ionsOfLabel(composition);
}

/** The label with the ceilings that it has without a list. */
function withoutList(label: Label): Label {
  const { composition, density } = label;
  const content = { ...composition.content };
  for (const [nutrient, high] of ceilingsWithoutList(composition, density)) {
    content[nutrient] = { ...content[nutrient], high };
  }
  return { ...label, composition: { ...composition, content } };
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
