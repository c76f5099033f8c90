import type { HumidityRow, Supported } from '../catalog/practice.js';
import { hazardsOf, inGroup } from '../can/hazards.js';
import { saltsOf } from '../chemistry/salts.js';
import type { ClosedProduct } from '../label/closed-product.js';

/** How one product of a shelf is kept. */
export interface Storage {
  id: string;
  name: string;
  form: 'powder' | 'liquid';
  /** Relative humidity at 30 °C, %, above which the powder draws water, by which row; null for liquids and where nothing is known. */
  draws: { humidity: number; by: string; isBlend: boolean; support: Supported } | null;
  /** Codes of the oxidisers' statements that it bears, and whether only its salts may make it one. */
  oxidiser: { codes: string[]; may: boolean } | null;
}

/**
 * How the products of a shelf are kept dry and apart: the humidity above which each powder draws water, by its own salt, by the pair of its
 * salts that draws it soonest, or as a blend; and which feed fire. Nothing is said of how long anything keeps.
 */
export const storageOf = (products: readonly ClosedProduct[], rows: readonly HumidityRow[]): Storage[] =>
  products.map((product) => {
    const { id, name, form } = product;
    const hazards = hazardsOf(product);
    const codes = inGroup(hazards.codes, 'oxidiser');
    return {
      ...{ id, name, form },
      draws: form === 'powder' ? drawsAt(product, rows) : null,
      oxidiser: codes.length === 0 ? null : { codes, may: hazards.may },
    };
  });

function drawsAt({ formula, derivedFrom }: ClosedProduct, rows: readonly HumidityRow[]): Storage['draws'] {
  const salts = formula === undefined ? saltsOf(derivedFrom).known.map((salt) => salt.formula) : [formula];
  const held = new Set(salts.map(anhydrous));
  const own = rows.filter(({ formulas }) => formulas.length > 0 && formulas.every((one) => held.has(anhydrous(one))));
  // of a mixture nobody measured, blends in general tell more than one of its salts
  const isMixture = formula === undefined && held.size !== 1;
  const known = isMixture ? [...own, ...rows.filter(({ formulas }) => formulas.length === 0)] : own;
  const lowest = known.reduce<HumidityRow | null>((a, b) => (a === null || b.humidity < a.humidity ? b : a), null);
  if (lowest === null) return null;
  const { humidity, name, formulas, refs, source, evidence, notes } = lowest;
  return { humidity, by: name, isBlend: formulas.length === 0, support: { refs, source, evidence, notes } };
}

/** The salt without its water: what it draws water at is told of one form and stands for the others. */
const anhydrous = (formula: string): string => formula.replace(/·\d*H2O$/, '');

/**
 * How much of a damp powder gives what was wanted of the dry one: a jar that weighed so much when it was closed and weighs more now has
 * drawn the difference as water, which is weighed with each dose.
 * @param wanted g of the dry powder
 * @param dry g of powder as it was closed, above 0
 * @param damp g of the same powder now
 */
export const dampGrams = (wanted: number, dry: number, damp: number): number => (wanted * Math.max(dry, damp)) / dry;
