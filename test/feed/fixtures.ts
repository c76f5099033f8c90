import { ClosedProduct } from '../../src/label/closed-product.js';
import { ionsOfFormula, ionsOfLabel } from '../../src/label/counter-ions.js';
import { measuredIons } from '../../src/label/measured-ions.js';
import type { Product, Water } from '../../src/label/product.js';
import { NITROGEN_FORMS, type Nutrient, perNutrient } from '../../src/chemistry/nutrients.js';
import { type FeedRequest, withEcCap } from '../../src/feed/request.js';
import type { Band, Programme } from '../../src/programme/programme.js';
import { type WithoutUnits, litres } from '../../src/units/index.js';

/** A powder whose label settles everything; contents in % (so × 10 mg/g). Total N is the sum of the forms. */
export function powder(
  id: string,
  percent: Partial<Record<Nutrient, number>>,
  more: Partial<Product> = {},
): ClosedProduct {
  return closedAsItStands(row(id, percent, more));
}

/** A liquid of the same kind; contents in % by volume (so × 10 mg/mL). */
export function liquid(
  id: string,
  percent: Partial<Record<Nutrient, number>>,
  more: Partial<Product> = {},
): ClosedProduct {
  const { composition, ...rest } = row(id, percent, more);
  return closedAsItStands({ ...rest, form: 'liquid', composition: { ...composition, per: 'mL' } });
}

/** The same as its row says it, the label open. */
export function row(id: string, percent: Partial<Record<Nutrient, number>>, more: Partial<Product> = {}): Product {
  const n = percent.N ?? NITROGEN_FORMS.reduce((sum, form) => sum + (percent[form] ?? 0), 0);
  const content = perNutrient((nutrient) => {
    const mg = 10 * (nutrient === 'N' ? n : (percent[nutrient] ?? 0));
    return { low: mg, stated: mg as number | null, high: mg };
  });
  return {
    id,
    name: id,
    form: 'powder',
    composition: { per: 'g', content, open: [] },
    derivedFrom: [],
    notes: '',
    source: 'test',
    evidence: 'invented',
    where: {},
    ...more,
  };
}

/** A label that settles everything needs no program to be closed: its formula or its charges tell the ions. */
export function closedAsItStands(product: Product): ClosedProduct {
  const { composition, formula, derivedFrom, density, ec } = product;
  const ions = (formula === undefined ? null : ionsOfFormula(formula, composition)) ?? ionsOfLabel(composition);
  return new ClosedProduct(product, {
    composition,
    ions,
    formula,
    derivedFrom,
    density,
    ec,
    measuredIons: ec === undefined ? undefined : measuredIons(ec, ions.value),
    disagreement: undefined,
  });
}

const distilled: WithoutUnits<Water> = {
  id: 'pure',
  name: 'pure water',
  mgPerLitre: {},
  alkalinity: 0,
  pricePerLitre: 0,
  source: 'test',
  evidence: 'invented',
};

/** Pure water but for what is told of it, in plain numbers: mg/L of nutrients, alkalinity in mg/L CaCO3. */
export const water = (told: Partial<WithoutUnits<Water>>): Water => ({ ...distilled, ...told }) as Water;
export const pure = water({});

/** Bands in plain numbers, mg/L. */
export type PlainBands = Partial<Record<Nutrient, WithoutUnits<Band>>>;
export const inMg = (bands: PlainBands): Programme['bands'] => bands as Programme['bands'];

/** A request for given bands (mg/L) on a shelf, pure water, 4 L; an EC cap in mS/cm. */
export function request(
  shelf: ClosedProduct[],
  bands: PlainBands,
  { maxEc, ...more }: Partial<FeedRequest> & { maxEc?: number } = {},
): FeedRequest {
  const made: FeedRequest = {
    header: {
      name: 'test',
      plants: 'test plants',
      medium: 'sphagnum',
      phase: 'growth',
      strength: '100 %',
      strengthFactor: 1,
      batchLitres: litres(4),
      currency: 'EUR',
    },
    programme: {
      plants: 'test plants',
      medium: 'sphagnum',
      phase: 'growth',
      bands: inMg(bands),
      rules: [],
      evidence: [],
    },
    rules: [],
    shelf,
    waters: [pure],
    goal: 'cheapest',
    ...more,
  };
  return maxEc === undefined ? made : withEcCap(made, maxEc);
}
