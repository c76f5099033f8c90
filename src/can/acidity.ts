import { nitrificationAcidity, potentialAcidity } from '../chemistry/acidity.js';
import { ION_NUTRIENTS, type Ions, mmolPerMg } from '../chemistry/ions.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { AcidityLine } from './can-lines.js';

/** mg/L of each nutrient in the feed solution, as labels state it and as they leave it. */
export type Totals = Pick<ReadonlyMap<Nutrient, { low: number; stated: number; high: number }>, 'get'>;

/**
 * Potential acidity of a litre of feed solution over the make-ups that the labels allow, the likeliest first. The water's own salts count
 * as the products' do; its alkalinity is told apart.
 */
export function acidityOf(totals: Totals, makeUps: readonly Ions[]): AcidityLine {
  const nitrogen = Object.fromEntries(NITROGEN.map((n) => [n, totals.get(n)?.stated ?? 0]));
  const [value, ...others] = makeUps.map((ions) => potentialAcidity({ ...saltsIn(ions), N: nitrogen.N! }));
  return {
    mgCaCO3PerLitre: value!,
    low: Math.min(value!, ...others),
    high: Math.max(value!, ...others),
    ifAllNitrifies: nitrificationAcidity(nitrogen),
    alkalinity: makeUps[0]!.alkalinity,
    drift: Math.abs(value!) <= STEADY ? 'steady' : value! > 0 ? 'acid' : 'basic',
  };
}

const NITROGEN: readonly Nutrient[] = ['N', 'NH4-N', 'urea-N'];

/** mg of each nutrient but nitrogen in these ions. */
export function saltsIn(ions: Ions): Partial<Record<Nutrient, number>> {
  return Object.fromEntries(SALTS.map((ion) => [ION_NUTRIENTS[ion], ions[ion] / mmolPerMg(ion)]));
}

const SALTS = ['K', 'Ca', 'Mg', 'Na', 'P', 'SO4', 'Cl'] as const;

/** mg CaCO3 per litre within which a feed is neither: less than the potential of the rain's own carbon dioxide to matter. */
const STEADY = 5;
