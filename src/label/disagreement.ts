import { formatNumber } from '../units/format.js';
import type { Disagreement } from './closed-product.js';

/** What is wrong between a list of sources and the figures of the label, as a sentence. */
export function disagreementText(off: Disagreement): string {
  const figures = off.map(
    ({ nutrient, declared, nearest }) => `${nutrient} ${formatNumber(nearest, 3)} % for ${formatNumber(declared, 3)} %`,
  );
  return `the salts named cannot make this analysis: the nearest they come is ${figures.join(', ')}`;
}
