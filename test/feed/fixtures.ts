import type { Product, Water } from '../../src/label/product.js';
import { NITROGEN_FORMS, type Nutrient, perNutrient } from '../../src/chemistry/nutrients.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { Band } from '../../src/programme/programme.js';
import type { Rule } from '../../src/programme/rule.js';

/** A powder whose label settles everything; contents in % (so × 10 mg/g). Total N is the sum of the forms. */
export function powder(id: string, percent: Partial<Record<Nutrient, number>>, more: Partial<Product> = {}): Product {
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
    evidence: 'invented for the demo',
    where: {},
    ...more,
  };
}

export const pure: Water = {
  id: 'pure',
  name: 'pure water',
  mgPerLitre: {},
  alkalinity: 0,
  pricePerLitre: 0,
  source: 'test',
  evidence: 'invented for the demo',
};

/** A request for given bands on a shelf, pure water, 4 L. */
export function request(
  shelf: Product[],
  bands: Partial<Record<Nutrient, Band>>,
  more: Partial<FeedRequest> & { rules?: Rule[] } = {},
): FeedRequest {
  return {
    header: {
      name: 'test',
      plants: 'test plants',
      medium: 'sphagnum',
      phase: 'growth',
      strength: '100 %',
      strengthFactor: 1,
      batchLitres: 4,
      currency: 'EUR',
    },
    programme: { plants: 'test plants', medium: 'sphagnum', phase: 'growth', bands, rules: [], evidence: [] },
    rules: [],
    shelf,
    waters: [pure],
    goal: 'cheapest',
    ...more,
  };
}
