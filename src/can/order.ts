import type { Product } from '../label/product.js';
import type { Nutrient } from '../chemistry/nutrients.js';

/** Below this share of a product (mg per g or mL) an element is a trace and does not decide when it goes in. */
const TRACE = 5;

/**
 * The order in which products go into the can so that none meets its opposite undiluted: silicates and alkalis, then calcium, then
 * what brings neither calcium nor sulfate nor phosphate, then sulfate and phosphate parts, then micronutrients.
 * Calcium before the phosphate part: common practice, no source.
 */
export function mixingRank(product: Product): number {
  const has = (n: Nutrient): boolean => product.composition.content[n].high > TRACE;
  if (has('Si')) return 0;
  const opposed = has('P') || (product.composition.content.S.stated ?? 0) > TRACE;
  if (has('Ca') && !opposed) return 1;
  if (opposed) return 3;
  const main = (['N', 'K', 'Mg', 'Na', 'Cl'] as const).some(has);
  return main ? 2 : 4;
}
