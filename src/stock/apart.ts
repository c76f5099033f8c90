import { isAlkali } from '../can/cautions.js';
import type { ApartItem } from './concentrate-result.js';
import type { StockItem } from './tank.js';

/** Sets aside what belongs into no stock bottle with others: silicates and other alkalis, and acids. */
export function apartFrom(items: readonly StockItem[]): { stocked: StockItem[]; apart: ApartItem[] } {
  const stocked: StockItem[] = [];
  const apart: ApartItem[] = [];
  for (const item of items) {
    const why = reasonApart(item);
    if (why === null) {
      stocked.push(item);
      continue;
    }
    const { product, perLitre } = item;
    const amount = product.form === 'powder' ? { gramsPerLitre: perLitre } : { millilitresPerLitre: perLitre };
    apart.push({ id: product.id, name: product.name, ...amount, why });
  }
  return { stocked, apart };
}

function reasonApart({ product, brings: { ions } }: StockItem): string | null {
  if (product.composition.content.Si.high > 5) return SILICATE;
  const cations = ions.K + ions.NH4 + ions.Na + 2 * ions.Ca + 2 * ions.Mg;
  if (isAlkali(product) || (ions.P === 0 && ions.HCO3 > 0.5 * cations)) return ALKALI;
  // a feed merely made with an acid holds its salts by now
  return ions.HCO3 < 0 && cations < -0.5 * ions.HCO3 ? ACID : null;
}

const SILICATE =
  'silicate turns to jelly in a stock and throws out calcium: stir it into the full can first, by itself';
const ALKALI =
  'strongly alkaline: it would throw out calcium and magnesium, and ammonia; stir it into the full can first';
const ACID = 'an acid: it goes by its own label, measured by someone trained for it, never into a mixed stock';
