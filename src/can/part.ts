import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import type { Ions } from '../chemistry/ions.js';
import { chemistryOf, NONE } from '../chemistry/conductivity.js';
import { ionsOfWater, type MakeUp, plus, usualIons } from './ec.js';
import { type MilliSiemensPerCm, milliSiemensOf, milliSiemensPerCm } from '../units/index.js';
import type { Amounts } from './mix-amounts.js';

/** One product in a can that may be only partly full or partly mixed. */
export interface Part {
  product: ClosedProduct;
  /** g or mL in a litre of the full can. */
  perLitre: number;
}

/** The water of a can: shares sum to 1. */
export interface Blend {
  water: Water;
  share: number;
}

/** The products of a mix, as they stand on the shelf; less than 1e-12 g or mL is none. */
export const partsOf = ({ products }: Pick<Amounts, 'products'>, shelf: readonly ClosedProduct[]): Part[] =>
  shelf.flatMap((product, i) => {
    const perLitre = products[i] ?? 0;
    return perLitre > 1e-12 ? [{ product, perLitre }] : [];
  });

/** The waters of a mix with their shares; less than a billionth is none. */
export const watersOf = ({ waters: shares }: Pick<Amounts, 'waters'>, waters: readonly Water[]): Blend[] =>
  waters.flatMap((water, i) => {
    const share = shares[i] ?? 0;
    return share > 1e-9 ? [{ water, share }] : [];
  });

/** A conductivity with what nine of ten labels leave open and the error of the model, mS/cm. */
export interface Conductivity {
  mSPerCm: MilliSiemensPerCm;
  low: MilliSiemensPerCm;
  high: MilliSiemensPerCm;
}

/**
 * Conductivity of some of the products in a can that is `full` of its final volume (1 = to the mark). At `temperatureC` as a meter
 * without correction shows it; default 25 °C.
 */
export function ecOfPart(parts: readonly Part[], waters: readonly Blend[], full = 1, temperatureC = 25): Conductivity {
  const settled = parts.every(({ product }) => isSettled(product));
  const which: readonly MakeUp[] = settled
    ? ['value']
    : ['value', 'leastConductive', 'mostConductive', 'acid', 'alkaline'];
  const ecs = which.map((w) => milliSiemensOf(chemistryOf(ionsOfPart(parts, waters, full, w), { temperatureC }).ec));
  return {
    mSPerCm: ecs[0]!,
    low: milliSiemensPerCm(Math.min(...ecs) * (1 - MODEL_ERROR)),
    high: milliSiemensPerCm(Math.max(...ecs) * (1 + MODEL_ERROR)),
  };
}

/** The same without the range: mS/cm. */
export const likelyEc = (
  parts: readonly Part[],
  waters: readonly Blend[],
  full = 1,
  temperatureC = 25,
): MilliSiemensPerCm => milliSiemensOf(chemistryOf(ionsOfPart(parts, waters, full, 'value'), { temperatureC }).ec);

/** Error of the conductivity model, as a share: what it was off at most against the tables it is tested with. */
export const MODEL_ERROR = 0.03;

function ionsOfPart(parts: readonly Part[], waters: readonly Blend[], full: number, which: MakeUp): Ions {
  let sum = NONE;
  for (const { product, perLitre } of parts) sum = plus(sum, usualIons(product, which), perLitre / full);
  for (const { water, share } of waters) sum = plus(sum, ionsOfWater(water), share);
  return sum;
}

/** True where the label leaves nothing open that conducts. */
export function isSettled(product: ClosedProduct): boolean {
  const ions = product.ions;
  return product.ec !== undefined || (ions.value === ions.leastConductive && ions.value === ions.acid);
}
