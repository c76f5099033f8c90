import type { Disagreement } from '../../label/closed-product.js';
import { formatNumber } from '../../units/format.js';

/** What is wrong between a list of sources and the figures of the label. */
export function disagreementSays(off: Disagreement): string {
  const figures = off.map(
    ({ nutrient, declared, nearest }) => `${nutrient} ${formatNumber(nearest, 3)} % for ${formatNumber(declared, 3)} %`,
  );
  return `the salts named cannot make this analysis: the nearest they come is ${figures.join(', ')}`;
}
