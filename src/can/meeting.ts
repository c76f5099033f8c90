import {
  type Brings,
  type IonSource,
  type Chemistry,
  MINERALS,
  type Mineral,
  times,
  totalOf,
  verdictOf,
  whoIs,
} from './clouding.js';

/** Two products that stay clear in the can but precipitate where they meet before they are diluted. */
export interface Meeting {
  /** The one that brings calcium first, which is the one to dissolve first. */
  between: [Brings, Brings];
  minerals: Mineral[];
}

/**
 * Pairs that stay clear in the can but not where they meet strong: stirred together into the first cup of water, a fiftieth of the
 * can. Dissolving one by one in the full can (calcium first) avoids it.
 * @param items what each brings per litre of can, the water left out
 */
export function meetings(items: readonly IonSource[], chemistry: Chemistry): Meeting[] {
  const found: Meeting[] = [];
  items.forEach((a, i) => {
    for (const b of items.slice(i + 1)) {
      const [calcium, other] = a.ions.Ca > 0 || b.ions.Ca <= 0 ? [a, b] : [b, a];
      if (!canMeet(calcium, other)) continue;
      const { saturation } = chemistry(times(totalOf([a.ions, b.ions]), CUPFUL), { air: false });
      const minerals = MINERALS.filter((mineral) => verdictOf(mineral, saturation[mineral]) === 'will cloud');
      if (minerals.length === 0) continue;
      found.push({ between: [whoIs(calcium), whoIs(other)], minerals });
    }
  });
  return found;
}

/** Share of the can in which things meet: a cup of 80 mL in a can of 4 L. */
const CUPFUL = 50;

const canMeet = (a: IonSource, b: IonSource): boolean =>
  (a.ions.Ca > 0 && (b.ions.SO4 > 0 || b.ions.P > 0)) ||
  (b.ions.Ca > 0 && (a.ions.SO4 > 0 || a.ions.P > 0)) ||
  (a.ions.Mg + b.ions.Mg > 0 && a.ions.P + b.ions.P > 0 && a.ions.NH4 + b.ions.NH4 > 0);
