import type { Ions } from '../chemistry/ions.js';
import { linearEcOfIons } from '../chemistry/linear-ec.js';
import type { Composition } from './composition.js';
import { ClosedProduct, type ClosedLabel, type Disagreement } from './closed-product.js';
import { type Ends, ionsOfFormula, ionsOfLabel, ionsTold, type ProductIons } from './counter-ions.js';
import type { LikelyMakeUps } from './likely-make-ups.js';
import { measuredIons } from './measured-ions.js';
import { narrowed } from './narrow.js';
import type { Product } from './product.js';
import { labelKey, type Solved, solveLabel } from './solved.js';
import { ceilingsWithoutList } from './undeclared.js';

/**
 * The product with its label closed by its formula, by the salts it names, or else by every plausible counter-ion: its ions, and how
 * much there may be of what it does not declare. Some eight small programs, so a product is closed once, where it comes in. One that is
 * closed already stays as it is.
 */
export async function closeProduct(product: Product): Promise<ClosedProduct> {
  const [closed] = await closeShelf([product]);
  return closed!;
}

/**
 * Every product of a shelf, closed, one after the other; labels that say the same are solved once.
 * @param solved what the programs of some labels have said before, by `labelKey`
 */
export async function closeShelf(
  shelf: readonly Product[],
  solved: ReadonlyMap<string, Solved> = new Map(),
): Promise<ClosedProduct[]> {
  // nothing that happens to a row while programs are solved gets in
  const rows = shelf.map((row) => (ClosedProduct.is(row) ? row : { jar: { ...row }, label: labelOf(row) }));
  const here = new Map<string, Solved>();
  const closed: ClosedProduct[] = [];
  for (const row of rows) {
    if (row instanceof ClosedProduct) {
      closed.push(row);
      continue;
    }
    const { jar, label } = row;
    let said: Solved | undefined;
    if (label.formula === undefined) {
      const key = labelKey(label);
      said = solved.get(key) ?? here.get(key) ?? (await solveLabel(label));
      here.set(key, said);
    }
    closed.push(closedBy(jar, label, said));
  }
  return closed;
}

/** A copy of what a row says of what is inside. */
function labelOf({ composition, derivedFrom, formula, density, ec }: Product): ClosedFrom {
  return { composition: structuredClone(composition), derivedFrom: [...derivedFrom], formula, density, ec };
}

type ClosedFrom = Pick<ClosedLabel, 'composition' | 'derivedFrom' | 'formula' | 'density' | 'ec'>;

function closedBy(jar: Product, label: ClosedFrom, said: Solved | undefined): ClosedProduct {
  const { ions, disagreement, composition } = closureOf(label, said);
  return new ClosedProduct(jar, {
    ...label,
    ions,
    disagreement,
    composition,
    measuredIons: label.ec === undefined ? undefined : measuredIons(label.ec, ions.value),
  });
}

interface Closure {
  composition: Composition;
  ions: ProductIons;
  disagreement?: Disagreement;
}

/** What follows from a label and from what its programs say. Without those it is closed by its formula. */
function closureOf(label: ClosedFrom, said: Solved | undefined): Closure {
  const { composition, derivedFrom } = label;
  if (said === undefined) return { composition, ions: bareIons(label) };
  const { bySources, open, likely } = said;
  if (bySources?.verdict === 'closed') {
    const { open: byList, likely: nearest, value, ends, usual } = bySources;
    return {
      composition: narrowed(composition, byList, nearest, 'sources'),
      ions: { value, ...ends, usual, from: 'sources' },
    };
  }
  // what a list ruled out that cannot be believed, or that is no longer there, is possible again
  const bare = bySources === null && derivedFrom.length > 0 ? label : withoutList(label);
  const charges = bareIons(bare);
  const off = bySources === null ? {} : { disagreement: bySources.off };
  const ions = likely === null ? charges : likelyIons(likely, charges, ionsTold(bare.composition));
  if (open === null) return { composition: bare.composition, ions, ...off };
  return { composition: narrowed(bare.composition, open, ions.value, 'label alone'), ions, ...off };
}

/** By the formula, else by the charges that the figures leave over. */
function bareIons({ formula, composition }: ClosedFrom): ProductIons {
  return (formula === undefined ? null : ionsOfFormula(formula, composition)) ?? ionsOfLabel(composition);
}

/** The label with the ceilings that it has without a list. */
function withoutList(label: ClosedFrom): ClosedFrom {
  const { composition, density } = label;
  const content = { ...composition.content };
  for (const [nutrient, high] of ceilingsWithoutList(composition, density)) {
    content[nutrient] = { ...content[nutrient], high };
  }
  return { ...label, composition: { ...composition, content } };
}

/**
 * pH without a list: neither an acid that the charges leave over but no likely salt brings, nor a trace of acid that the figures hide,
 * which would move the pH of nearly pure water by a unit.
 */
function likelyIons({ value, ends }: LikelyMakeUps, charges: ProductIons, told: Ions | null): ProductIons {
  const acid = charges.acid.alkalinity > ends.acid.alkalinity ? charges.acid : ends.acid;
  const alkaline = charges.alkaline.alkalinity < ends.alkaline.alkalinity ? charges.alkaline : ends.alkaline;
  return { value: told ?? value, ...widened(ends, told ?? value), acid, alkaline, from: 'label alone' };
}

/** The ends, or what lies beyond them. */
function widened(ends: Ends<Ions>, ions: Ions): Pick<Ends<Ions>, 'leastConductive' | 'mostConductive'> {
  const ec = linearEcOfIons(ions);
  return {
    leastConductive: ec < linearEcOfIons(ends.leastConductive) ? ions : ends.leastConductive,
    mostConductive: ec > linearEcOfIons(ends.mostConductive) ? ions : ends.mostConductive,
  };
}
