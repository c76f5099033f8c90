import type { ClosedProduct } from '../label/closed-product.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import { isAcid, isAlkali } from './cautions.js';

/** Below this share of a product (mg per g or mL) an element is a trace and does not decide when it goes in. */
const TRACE = 5;

/**
 * The usual place of a product among those of a can, so that none meets its opposite undiluted: silicates and alkalis, liquids that clash with
 * nothing, calcium, what brings neither calcium nor sulfate nor phosphate, sulfate and phosphate parts, micronutrients, acids (common
 * practice, no source). Equal places go in as they stand on the shelf. Whether that order keeps the can clear is for `sequenceOf` to check.
 */
export function mixingRank(product: ClosedProduct): number {
  if (isAcid(product)) return 6;
  const has = (n: Nutrient): boolean => product.composition.content[n].high > TRACE;
  if (isAlkali(product) || has('Si')) return 0;
  const opposed = has('P') || (product.composition.content.S.stated ?? 0) > TRACE;
  if (has('Ca') && !opposed) return 2;
  if (opposed) return 4;
  const main = (['N', 'K', 'Mg', 'Na', 'Cl'] as const).some(has);
  if (!main) return 5;
  return product.form === 'liquid' ? 1 : 3;
}
