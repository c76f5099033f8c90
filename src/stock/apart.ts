import { isAlkali } from '../can/cautions.js';
import type { ApartItem } from './concentrate-result.js';
import type { Apartness } from './findings.js';
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

function reasonApart({ product, brings: { ions } }: StockItem): Apartness | null {
  if (product.composition.content.Si.high > 5) return 'silicate';
  const cations = ions.K + ions.NH4 + ions.Na + 2 * ions.Ca + 2 * ions.Mg;
  if (isAlkali(product) || (ions.P === 0 && ions.HCO3 > 0.5 * cations)) return 'alkali';
  // a feed merely made with an acid holds its salts by now
  return ions.HCO3 < 0 && cations < -0.5 * ions.HCO3 ? 'acid' : null;
}
