import type { Product } from '../label/product.js';
import type { Verdict } from '../can/clouding.js';
import { isOrganic } from '../can/organic.js';
import type { Mix } from '../feed/results.js';

/** How long a mixed can may stand, and what ends it. */
export type Keeping = { hours: number } & (
  | { why: 'plain water' | 'near clouding' | 'urea' }
  /** Products by name. */
  | { why: 'organic matter'; products: string[] }
  | { why: 'light'; iron: boolean }
);

/**
 * Hours that a can of feed keeps; conventions from memory, no source: organic matter feeds microbes within a day, urea is split by them
 * within a few, and a clear mineral feed lasts as long as no alga sees light and the iron chelate none either.
 */
export function keepingOf(
  products: readonly Product[],
  mix: Pick<Mix, 'nitrogenShares' | 'elements'>,
  clouding: Verdict,
): Keeping {
  if (products.length === 0) return { hours: 168, why: 'plain water' };
  const organic = products.filter(isOrganic).map((p) => p.name || p.id);
  if (organic.length > 0) return { hours: 24, why: 'organic matter', products: organic };
  if (clouding !== 'clear') return { hours: 24, why: 'near clouding' };
  if ((mix.nitrogenShares?.urea ?? 0) > 0.02) return { hours: 48, why: 'urea' };
  const iron = mix.elements.some(({ element, mgPerLitre }) => element === 'Fe' && mgPerLitre > 0);
  return { hours: 168, why: 'light', iron };
}
