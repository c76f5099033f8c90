import type { ClosedProduct } from '../label/closed-product.js';
import { NITROGEN_FORMS, NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { mainsDeclared, tolerance } from '../label/allowance.js';

/** How far one g or mL of a product lies from its label in one nutrient, mg: normal, `factor` names what moves it. */
export interface LabelSpread {
  nutrient: Nutrient;
  /** What it holds over the guarantee on average. */
  shift: number;
  sd: number;
  /** Nutrients of one factor move together. */
  factor: string;
}

/**
 * What may lie between a label and the jar, nutrient by nutrient. A guarantee is a minimum, so jars hold more as a rule: the mean is
 * taken half an investigational allowance over it, and the allowance under it two standard deviations below that mean (3 of 4 jars
 * hold the guarantee, 2 of 100 are short by more than the allowance; the shape is from memory, the allowances are the label room's). The forms of
 * nitrogen move with the total. A pure salt moves as a whole, by its grade and damp: 1 % (common practice, no source). What a
 * label leaves open is no chance but a range, and is kept as one.
 */
export function labelSpreads(product: ClosedProduct): LabelSpread[] {
  const { content } = product.composition;
  const found: LabelSpread[] = [];
  for (const nutrient of NUTRIENTS) {
    const mg = content[nutrient].stated ?? 0;
    if (!(mg > 0)) continue;
    if (product.formula !== undefined) {
      found.push({ nutrient, shift: 0, sd: GRADE * mg, factor: 'grade' });
      continue;
    }
    const form = (NITROGEN_FORMS as readonly Nutrient[]).includes(nutrient);
    const total = content.N.stated ?? 0;
    const whole = form && total > 0 ? 'N' : nutrient;
    const allowed = mg * shareAllowed(whole, whole === nutrient ? mg : total, product);
    // a guarantee is a minimum, which makers exceed; what the EU has declared is the middle, with its tolerance two standard deviations
    const european = product.composition.law === 'eu';
    const [shift, sd] = european ? [0, allowed / 2] : [allowed / 2, 0.75 * allowed];
    found.push({ nutrient, shift, sd, factor: whole });
  }
  return found;
}

/** Relative standard deviation of a pure salt. */
const GRADE = 0.01;
/** An allowance over half the guarantee is about the analyst's last digit, not about the jar. */
const MOST = 0.5;

/** The allowance as a share of the guarantee; a liquid of unknown density is taken as water. */
function shareAllowed(nutrient: Nutrient, mg: number, product: ClosedProduct): number {
  const percent = mg / 10 / (product.form === 'powder' ? 1 : (product.density ?? 1));
  const { content, law } = product.composition;
  return Math.min(MOST, tolerance(nutrient, percent, law, mainsDeclared(content)).under / percent);
}
