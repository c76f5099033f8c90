import type { Product, Water } from '../label/product.js';
import { CACO3_PER_MEQ } from '../chemistry/acidity.js';
import { type Ions, ionsFromNutrients } from '../chemistry/ions.js';
import { type SolutionChemistry, solutionChemistry } from '../chemistry/solution/index.js';
import { type ProductIons, times } from '../label/counter-ions.js';
import { ionsOf } from '../label/close.js';
import type { Amounts } from './mix-amounts.js';

/** Which make-up of the labels is meant. */
export type MakeUp = keyof Omit<ProductIons, 'from' | 'usual'>;

/** mmol/L (alkalinity in meq/L) of a mix of products and waters. */
export function ionsOfMix(
  amounts: Amounts,
  shelf: readonly Product[],
  waters: readonly Water[],
  which: MakeUp = 'value',
  of: (product: Product, which: MakeUp) => Ions = (product, w) => ionsOf(product)[w],
): Ions {
  let sum = NONE;
  amounts.products.forEach((x, i) => {
    if (x > 0) sum = plus(sum, of(shelf[i]!, which), x);
  });
  amounts.waters.forEach((share, i) => {
    if (share > 0) sum = plus(sum, ionsOfWater(waters[i]!), share);
  });
  return sum;
}

/** mmol/L and alkalinity of a source water, as analysed. */
export function ionsOfWater(water: Water): Ions {
  return { ...ionsFromNutrients(water.mgPerLitre), alkalinity: water.alkalinity / CACO3_PER_MEQ };
}

/**
 * The chemistry of a solution, for ions with their alkalinity. An alkalinity of 0 is one that is known: charge that chelates and trace metals
 * leave over must not pass for acid or alkali.
 */
export function chemistryOf(
  { alkalinity, ...strong }: Ions,
  options: { temperatureC?: number; air?: boolean } = {},
): SolutionChemistry {
  return solutionChemistry({ ...strong, HCO3: alkalinity === 0 ? KNOWN_ZERO : alkalinity }, options);
}

const KNOWN_ZERO = 1e-12;

/** mS/cm at 25 °C by the full model, open to air. */
export function conductivity(ions: Ions): number {
  return chemistryOf(ions).ec25 / 1000;
}

/**
 * The ions by which a product conducts. A measured `ec` overrides the prediction: all ions are scaled alike until the model reads the
 * measured figure at 1 g/L or 1 mL/L; what a product without any known ions conducts is counted as potassium chloride.
 */
export function conductingIons(product: Product, which: MakeUp): Ions {
  if (product.ec === undefined) return ionsOf(product)[which];
  const known = MEASURED.get(product);
  if (known) return known;
  const scaled = scaledTo(product.ec, ionsOf(product).value);
  MEASURED.set(product, scaled);
  return scaled;
}

/** The same within what nine of ten products with such a label hold. */
export function usualIons(product: Product, which: MakeUp): Ions {
  return product.ec === undefined ? usualOf(product, which) : conductingIons(product, which);
}

/**
 * What the prediction for a can allows for: what nine of ten jars with a list hold, and every plausible counter-ion of a label
 * without one, which is no chance.
 */
export function openIons(product: Product, which: MakeUp): Ions {
  const ions = ionsOf(product);
  return ions.from === 'sources' ? usualOf(product, which) : ions[which];
}

function usualOf(product: Product, which: MakeUp): Ions {
  const ions = ionsOf(product);
  return which === 'value' ? ions.value : (ions.usual ?? ions)[which];
}

const MEASURED = new WeakMap<Product, Ions>();

function scaledTo(mSPerCm: number, ions: Ions): Ions {
  const bare = conductivity(NONE);
  const predicted = conductivity(ions) - bare;
  const shape = predicted > 0.01 * mSPerCm ? ions : { ...NONE, K: 10, Cl: 10 };
  let factor = mSPerCm / conductivity(shape);
  // nearly proportional, so a few steps settle it
  for (let step = 0; step < 6; step += 1) factor *= mSPerCm / Math.max(1e-9, conductivity(times(shape, factor)));
  return times(shape, Number.isFinite(factor) ? factor : 0);
}

export const NONE: Ions = { K: 0, Ca: 0, Mg: 0, Na: 0, NH4: 0, NO3: 0, P: 0, SO4: 0, Cl: 0, alkalinity: 0 };

/** a + factor · b */
export function plus(a: Ions, b: Ions, factor = 1): Ions {
  return Object.fromEntries(
    (Object.keys(a) as (keyof Ions)[]).map((ion) => [ion, a[ion] + factor * b[ion]]),
  ) as unknown as Ions;
}
