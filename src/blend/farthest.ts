import { factorOf, type NearAsked } from '../feed/near.js';
import type { Mix } from '../feed/results.js';

/** The factor at which doses really lie, of the elements that are held near their aims. */
export const farthest = ({ elements }: Pick<Mix, 'elements'>, { without, apart = [] }: NearAsked): number =>
  Math.max(
    1,
    ...elements.flatMap(({ element, mgPerLitre, aim }) =>
      element === 'N' || !aim || without.includes(element) || apart.includes(element)
        ? []
        : [factorOf(element, mgPerLitre, aim)],
    ),
  );

/** Doses that lie so many times outside the nearest widths are noticed (judgement). */
const LEAP = 1.25;

/** Whether doses lie so far outside the nearest widths that a grower would notice. */
export const leaps = (mix: Pick<Mix, 'elements'>, nearest: NearAsked): boolean =>
  farthest(mix, nearest) > LEAP * Math.max(1, nearest.factor, ...Object.values(nearest.own ?? {}));
