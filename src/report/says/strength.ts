import type { FeedHeader } from '../../feed/header.js';
import { percent } from '../figures.js';

/** `80 %`; of a phase that is fed weaker by itself what that comes to: `25 % of the rest programme is 11 % of full growth`. */
export function strengthSays({
  phase,
  strength,
  strengthFactor,
  phaseFactor,
}: Pick<FeedHeader, 'phase' | 'strength' | 'strengthFactor' | 'phaseFactor'>): string {
  if (phaseFactor === undefined) return strength;
  const growth = Math.round(100 * strengthFactor * phaseFactor);
  return `${strength} of the ${phase} programme is ${growth < 1 ? percent(strengthFactor * phaseFactor) : `${growth} %`} of full growth`;
}
