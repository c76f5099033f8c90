import type { Product, Water } from '../catalog/product.js';
import { type LinearEc, linearEc, linearEcOfIons } from '../chemistry/index.js';
import { ionsFromNutrients } from '../chemistry/ions.js';

/** 1 meq of alkalinity is 50.04 mg of CaCO3. */
const CACO3_PER_MEQ = 50.04;

/** mS/cm at 25 °C that 1 g/L or 1 mL/L adds, a linear estimate; low…high for what the label leaves open. */
export function linearEcOfProduct(product: Product): LinearEc {
  return linearEc(product.composition.content);
}

/** mS/cm at 25 °C of a source water; its alkalinity counts as bicarbonate. */
export function linearEcOfWater(water: Water): number {
  return linearEcOfIons({ ...ionsFromNutrients(water.mgPerLitre), alkalinity: water.alkalinity / CACO3_PER_MEQ });
}
