import { meqPerLitreOf } from '../chemistry/acidity.js';
import { NONE } from '../chemistry/conductivity.js';
import { carbonOf } from '../chemistry/solution/index.js';
import { pow } from '../units/elementary.js';
import { type Ions, ionsFromNutrients } from '../chemistry/ions.js';
import type { ClosedProduct } from '../label/closed-product.js';
import type { ProductIons } from '../label/counter-ions.js';
import type { Water } from '../label/product.js';
import type { Amounts } from './mix-amounts.js';

/** Which make-up of the labels is meant. */
export type MakeUp = keyof Omit<ProductIons, 'from' | 'usual'>;

/** mmol/L (alkalinity in meq/L) of a mix of products and waters. */
export function ionsOfMix(
  amounts: Amounts,
  shelf: readonly ClosedProduct[],
  waters: readonly Water[],
  which: MakeUp = 'value',
  of: (product: ClosedProduct, which: MakeUp) => Ions = (product, w) => product.ions[w],
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
  const before = WATERS.get(water);
  if (before) return before;
  const ions = analysed(water);
  WATERS.set(water, ions);
  return ions;
}

/** Every formulation asks for them. */
const WATERS = new WeakMap<Water, Ions>();

function analysed(water: Water): Ions {
  const alkalinity = meqPerLitreOf(water.alkalinity);
  return { ...ionsFromNutrients(water.mgPerLitre), alkalinity, carbonate: carbonateOf(alkalinity, water.pH) };
}

/**
 * Carbonate that a water brings, mmol/L: by its alkalinity and its pH where it is known, else at the pH of most taps; pure water and rain
 * hold the little carbon dioxide of the air.
 */
function carbonateOf(alkalinity: number, pH: number | undefined): number {
  if (pH !== undefined && alkalinity > 0) return carbonOf(alkalinity, pH);
  return Math.max(carbonOf(alkalinity, USUAL_PH), alkalinity + FROM_AIR);
}

/** pH of most taps, for one whose pH nobody measured (common practice, no source). */
const USUAL_PH = 7.6;
/** mmol/L of CO2 in water at rest with the air at 25 °C: Henry's constant 10^−1.468 at 10^−3.38 atm (catalog/aqueous.json). */
const FROM_AIR = 1000 * pow(10, -1.468 - 3.38);

/** Pure water, at rest with the air. */
export const PURE_WATER: Ions = { ...NONE, carbonate: FROM_AIR };

/**
 * The ions by which a product conducts. A measured `ec` overrides the prediction.
 */
export function conductingIons(product: ClosedProduct, which: MakeUp): Ions {
  return product.measuredIons ?? product.ions[which];
}

/** The same within what nine of ten products with such a label hold. */
export function usualIons(product: ClosedProduct, which: MakeUp): Ions {
  return product.measuredIons ?? usualOf(product, which);
}

/** What the prediction for a can allows for: what nine of ten jars with a list hold, and what is likely behind a label without one. */
export function openIons(product: ClosedProduct, which: MakeUp): Ions {
  const ions = product.ions;
  return ions.from === 'sources' ? usualOf(product, which) : ions[which];
}

function usualOf(product: ClosedProduct, which: MakeUp): Ions {
  const ions = product.ions;
  return which === 'value' ? ions.value : (ions.usual ?? ions)[which];
}

/** a + factor · b. Written out: plans ask it some ten thousand times, and an object made of pairs is slow to make and to read. */
export function plus(a: Ions, b: Ions, factor = 1): Ions {
  return {
    K: a.K + factor * b.K,
    Ca: a.Ca + factor * b.Ca,
    Mg: a.Mg + factor * b.Mg,
    Na: a.Na + factor * b.Na,
    NH4: a.NH4 + factor * b.NH4,
    NO3: a.NO3 + factor * b.NO3,
    P: a.P + factor * b.P,
    SO4: a.SO4 + factor * b.SO4,
    Cl: a.Cl + factor * b.Cl,
    alkalinity: a.alkalinity + factor * b.alkalinity,
    carbonate: a.carbonate + factor * b.carbonate,
    silicate: a.silicate + factor * b.silicate,
    borate: a.borate + factor * b.borate,
    citrate: a.citrate + factor * b.citrate,
    acetate: a.acetate + factor * b.acetate,
  };
}
