import type { ClosedProduct } from '../label/closed-product.js';
import type { Water } from '../label/product.js';
import { CHARGES, type Ions, type StrongIon } from '../chemistry/ions.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import { ionsFromNutrients } from '../chemistry/ions.js';
import { times } from '../label/counter-ions.js';
import { conductivity, NONE } from '../chemistry/conductivity.js';
import { conductingIons, ionsOfWater, plus } from '../can/ec.js';
import type { EcLinearisation, EcTouch } from '../feed/ec-linearisation.js';
import { ecCap, type FeedRequest } from '../feed/request.js';

/**
 * The linearisation that touches the model at a solution. Ions can only be added in pairs, so each slope is taken along a neutral salt: cations
 * with chloride, anions and bicarbonate with sodium. Conductivity bends downwards (the more ions, the less each carries), so
 * the linearisation lies above the model nearly everywhere: what keeps it keeps the cap. Where acid meets alkalinity it does not,
 * and every answer is therefore measured by the model itself.
 */
export function linearisationAt(ions: Ions, touches: EcTouch): EcLinearisation {
  const here = conductivity(ions);
  const step = STEP * Math.max(LEAST, size(ions));
  const along = (salt: Partial<Ions>): number => (conductivity(plus(ions, { ...NONE, ...salt }, step)) - here) / step;
  const chloride = along({ Na: 1, Cl: 1 });
  const cation = (ion: 'K' | 'NH4' | 'Ca' | 'Mg'): number =>
    along({ [ion]: 1, Cl: CHARGES[ion] }) - CHARGES[ion] * chloride;
  const anion = (ion: 'NO3' | 'P' | 'SO4'): number => along({ [ion]: 1, Na: -CHARGES[ion] });
  const slope: Ions = {
    ...NONE,
    Cl: chloride,
    K: cation('K'),
    NH4: cation('NH4'),
    Ca: cation('Ca'),
    Mg: cation('Mg'),
    NO3: anion('NO3'),
    P: anion('P'),
    SO4: anion('SO4'),
    alkalinity: along({ Na: 1, alkalinity: 1 }),
  };
  return { touches, constant: here - dot(slope, ions), slope };
}

/** mS/cm that the linearisation gives to one g or mL per litre. */
export function linearisationOfProduct(linearisation: EcLinearisation, product: ClosedProduct): number {
  return dot(linearisation.slope, conductingIons(product, 'value'));
}

/** mS/cm that the linearisation gives to a can of this water; shares of waters sum to 1, so the constant stands with them. */
export function linearisationOfWater(linearisation: EcLinearisation, water: Water): number {
  return linearisation.constant + dot(linearisation.slope, ionsOfWater(water));
}

/**
 * The linearisation to begin with: it touches the model where a feed in the proportions of the programme's aims, in the first water,
 * reads the EC cap.
 */
export function firstLinearisation(request: Pick<FeedRequest, 'programme' | 'waters' | 'rules'>): EcLinearisation {
  const { programme, waters } = request;
  const cap = ecCap(request) ?? 1;
  const before = PLANES.get(programme);
  if (before && before.water === waters[0] && before.cap === cap) return before.linearisation;
  const feed = aimed(programme.bands);
  const planes = OF_AIMS.get(waters[0]!) ?? new Map<string, EcLinearisation>();
  OF_AIMS.set(waters[0]!, planes);
  const key = `${cap} ${IONS.map((ion) => feed[ion]).join(' ')}`;
  const water = ionsOfWater(waters[0]!);
  const linearisation =
    planes.get(key) ?? linearisationAt(plus(water, feed, strengthAt(cap, feed, water)), { at: 'aims' });
  planes.set(key, linearisation);
  PLANES.set(programme, { water: waters[0]!, cap, linearisation });
  return linearisation;
}

/** Every formulation asks for it. Kept by all that it depends on, none of which can be changed: programme, first water and cap. */
const PLANES = new WeakMap<FeedRequest['programme'], { water: Water; cap: number; linearisation: EcLinearisation }>();

/** The same by water, then cap and aims: programmes that differ in their leasts alone share it. */
const OF_AIMS = new WeakMap<Water, Map<string, EcLinearisation>>();

/** Finite difference, as a share of the ions present (mmol/L): small against their curvature, large against rounding. */
const STEP = 1e-3;
const LEAST = 0.5;

const size = (ions: Ions): number => NAMES.reduce((sum, ion) => sum + ions[ion], 0);
const NAMES = Object.keys(CHARGES) as StrongIon[];
const IONS = Object.keys(NONE) as (keyof Ions)[];
const dot = (a: Ions, b: Ions): number => {
  let sum = 0;
  for (const ion of IONS) sum += a[ion] * b[ion];
  return sum;
};

/** Ions in the proportions of the aims, nitrogen as nitrate, closed by chloride or sodium. */
function aimed(bands: FeedRequest['programme']['bands']): Ions {
  const mg = Object.fromEntries(
    NUTRIENTS.flatMap((n): [Nutrient, number][] => (bands[n]?.aim === undefined ? [] : [[n, bands[n]!.aim!]])),
  ) as Partial<Record<Nutrient, number>>;
  const ions = ionsFromNutrients({ ...mg, 'NO3-N': mg.N ?? mg['NO3-N'] ?? 0, 'NH4-N': 0 });
  const left = ions.alkalinity;
  const closed = left > 0 ? { ...ions, Cl: ions.Cl + left } : { ...ions, Na: ions.Na - left };
  return size(closed) > 0 ? { ...closed, alkalinity: 0 } : { ...NONE, K: 1, NO3: 1 };
}

/** How much of a feed brings the water to the cap; a tenth of it where the water alone is over. */
function strengthAt(cap: number, feed: Ions, water: Ions): number {
  const alone = conductivity(water);
  const left = cap - alone;
  let strength = cap / conductivity(feed);
  if (left <= 0) return 0.1 * strength;
  for (let step = 0; step < 4; step += 1) {
    strength *= left / Math.max(1e-9, conductivity(plus(water, times(feed, strength))) - alone);
  }
  return strength;
}
