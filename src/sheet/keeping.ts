import type { ClosedProduct } from '../label/closed-product.js';
import type { Verdict } from '../can/clouding.js';
import type { Mix } from '../feed/results.js';
import { isOrganic } from '../can/organic.js';

/** How long a mixed can may stand. */
export interface Keeping {
  hours: number;
  says: string;
}

/**
 * Hours that a can of feed keeps; conventions from memory, no source: organic matter feeds microbes within a day, urea is split by them
 * within a few, and a clear mineral feed lasts as long as no alga sees light and the iron chelate none either.
 */
export function keepingOf(
  products: readonly ClosedProduct[],
  mix: Pick<Mix, 'nitrogenShares' | 'elements'>,
  clouding: Verdict,
): Keeping {
  if (products.length === 0) return { hours: 168, says: 'Plain water: nothing in it goes off.' };
  const organic = products.filter(isOrganic).map((p) => p.name || p.id);
  if (organic.length > 0)
    return {
      hours: 24,
      says: `Use it within 24 hours: ${organic.join(', ')} feeds microbes, and the can begins to smell.`,
    };
  if (clouding !== 'clear')
    return { hours: 24, says: 'Use it within 24 hours: it is near the point where it clouds. Stir before use.' };
  if ((mix.nitrogenShares?.urea ?? 0) > 0.02)
    return { hours: 48, says: 'Use it within 2 days: microbes split urea into ammonia, and the pH climbs.' };
  const iron = mix.elements.some(({ element, mgPerLitre }) => element === 'Fe' && mgPerLitre > 0);
  return {
    hours: 168,
    says: `Keeps up to 7 days closed, cool and in the dark: light ${iron ? 'breaks the iron chelate down and ' : ''}feeds algae.`,
  };
}
