import { CATIONS, type Constants, LIGANDS, LOG_CO2_IN_AIR, VOLUME_GROWTH, VOLUMES } from './species.js';
import { pow } from '../../units/elementary.js';

/**
 * Ions of a solution in mmol/L; P is all orthophosphate, HCO3 the alkalinity in meq/L (negative: acid), counted from H2PO4−, H2CO3,
 * H4SiO4, B(OH)3, citrate 2− and acetate 1−.
 */
export interface SolutionIons {
  K?: number;
  Ca?: number;
  Mg?: number;
  Na?: number;
  NH4?: number;
  NO3?: number;
  P?: number;
  SO4?: number;
  Cl?: number;
  HCO3?: number;
  /**
   * All dissolved carbonate: heeded closed to air. Where it is told, so is what stands behind the alkalinity, which is taken as it is; else
   * it is guessed (see `SolutionOptions`).
   */
  carbonate?: number;
  silicate?: number;
  borate?: number;
  citrate?: number;
  acetate?: number;
}

export interface SolutionOptions {
  /** °C, 0 to 50; default 25 */
  temperatureC?: number;
  /** in equilibrium with the CO2 of air (default), or closed */
  air?: boolean;
  /** fixed pH, reached with potassium hydroxide or nitric acid */
  pH?: number;
  /**
   * closed only: all dissolved carbonate, mmol/L; default: what the ions tell, else what the alkalinity holds at `sourcePH`; without an
   * alkalinity, that of the cations that neither anions nor phosphate account for, as far as they stand among other salts
   */
  carbonate?: number;
  /** pH of the water that brought the alkalinity; default 7.6 */
  sourcePH?: number;
}

/** What there is in a kilogram of water, mol/kg. */
export interface Totals {
  /** in order of CATIONS */
  cations: Float64Array;
  /** in order of LIGANDS; carbonate is ignored when open to air */
  ligands: Float64Array;
  /** charge of the analysis that no ion accounts for: it stays out of the proton balance */
  unexplained: number;
  /** activity of dissolved CO2 where the can is open to air, else null */
  carbonDioxide: number | null;
  /** a fixed pH, else null: the pH follows from the charge balance */
  pH: number | null;
}

/** Totals per kilogram of water, with the kilograms of water in a litre. */
export function totalsOf(
  ions: SolutionIons,
  { air = true, pH, carbonate, sourcePH = 7.6 }: SolutionOptions,
  constants: Constants,
): { totals: Totals; waterKgPerLitre: number; chargeError: number } {
  const at = (name: keyof SolutionIons): number => amount(ions[name]);
  const alkalinity = amount(ions.HCO3) - amount(-(ions.HCO3 ?? 0));
  const untold = alkalinity === 0 ? carbonOfSurplus(at) : carbonOf(alkalinity, sourcePH);
  const told = carbonate ?? ions.carbonate;
  const carbon = told === undefined ? untold : amount(told);
  const kg = waterPerLitre(at, alkalinity);
  const perKg = (mmolPerLitre: number): number => mmolPerLitre / 1000 / kg;
  const ligands = LIGANDS.map((id) => perKg(id === 'CO3' ? carbon : at(ION_OF[id])));
  const excess = alkalinity === 0 ? 0 : excessOf(at, alkalinity);
  const chargeError = ions.carbonate === undefined ? unexplained(at, alkalinity, excess) : excess;
  return {
    totals: {
      cations: Float64Array.from(CATIONS.map((id) => perKg(at(id)))),
      ligands: Float64Array.from(ligands),
      unexplained: perKg(chargeError),
      carbonDioxide: air ? pow(10, LOG_CO2_IN_AIR + constants.logHenry) : null,
      pH: pH !== undefined && Number.isFinite(pH) ? Math.min(16, Math.max(-2, pH)) : null,
    },
    waterKgPerLitre: kg,
    chargeError,
  };
}

/** What a ligand is called among the ions. */
const ION_OF = {
  SO4: 'SO4',
  PO4: 'P',
  H2SiO4: 'silicate',
  'B(OH)4': 'borate',
  citrate: 'citrate',
  acetate: 'acetate',
  NO3: 'NO3',
  Cl: 'Cl',
} as const satisfies Record<string, keyof SolutionIons>;

/** Cations less anions and alkalinity, meq/L. */
function excessOf(at: (name: keyof SolutionIons) => number, alkalinity: number): number {
  const cations = at('K') + at('Na') + at('NH4') + 2 * (at('Ca') + at('Mg'));
  const organic = 2 * at('citrate') + at('acetate');
  return cations - (at('NO3') + at('Cl') + 2 * at('SO4') + at('P') + organic + alkalinity);
}

/**
 * Cations less anions, meq/L, that neither alkalinity nor phosphate accounts for. Phosphate counts as H2PO4; what an imbalance has beyond
 * the usual error of an analysis is put down to phosphate given as HPO4 or as phosphoric acid, as far as there is any.
 */
function unexplained(at: (name: keyof SolutionIons) => number, alkalinity: number, excess: number): number {
  const beyond = Math.max(0, Math.abs(excess) - ANALYSIS_ERROR * Math.abs(alkalinity));
  return excess - Math.sign(excess) * Math.min(beyond, at('P'));
}

/** Imbalance of a water analysis as a share of its alkalinity; set by the tap of the reference tables, which has 0.116. */
const ANALYSIS_ERROR = 0.12;

/** mmol/L; what is no amount at all counts as none. */
function amount(value: number | undefined): number {
  return value !== undefined && Number.isFinite(value) ? Math.max(0, Math.min(value, MOST)) : 0;
}

/** No salt dissolves beyond this, mmol/L. */
const MOST = 20_000;

/**
 * Carbonate, mmol/L, of a water with so much alkalinity (meq/L) and this pH: bicarbonate, the CO2 beside it (pK1 6.35, 0.06 less for the
 * ions of a tap) and the carbonate (pK2 10.33, likewise).
 */
export function carbonOf(alkalinity: number, pH: number): number {
  const [carbonDioxide, carbonate] = [pow(10, 6.29 - pH), pow(10, pH - 10.25)];
  return (Math.max(0, alkalinity - pow(10, pH - 11)) * (1 + carbonDioxide + carbonate)) / (1 + 2 * carbonate);
}

/**
 * Carbonate of the cations that are left over, mmol/L. The ions cannot tell potassium carbonate from the hydroxide, so the guess that
 * errs least is taken: in a feed, carbonate (if it was hydroxide, conductivity is 3 % off at most in the reference mixtures; the other
 * way round it would be 12 %); an alkali by itself is hydroxide, and between the two the share of the other anions decides.
 */
function carbonOfSurplus(at: (name: keyof SolutionIons) => number): number {
  const cations = at('K') + at('Na') + at('NH4') + 2 * (at('Ca') + at('Mg'));
  const anions = at('NO3') + at('Cl') + 2 * at('SO4') + at('P');
  // phosphate may be HPO4; what is less than a figure's rounding is no alkali
  const surplus = cations - anions - at('P') - 0.005 * cations;
  return surplus > 0 ? (surplus / 2) * (anions / (anions + surplus)) : 0;
}

/**
 * Kilograms of water in a litre at 25 °C: the litre less the room that the ions take (partial molar volumes, growing with the root of
 * the ionic strength).
 */
function waterPerLitre(at: (name: keyof SolutionIons) => number, alkalinity: number): number {
  const molar = Object.entries(VOLUMES).map(([id, { charge, volume }]) => {
    const mmol = id === 'H2PO4' ? at('P') : id === 'HCO3' ? Math.max(0, alkalinity) : at(id as keyof SolutionIons);
    return { mol: mmol / 1000, charge, volume };
  });
  const strength = molar.reduce((sum, { mol, charge }) => sum + 0.5 * mol * charge ** 2, 0);
  const growth = VOLUME_GROWTH * Math.min(2, Math.sqrt(strength));
  const room = molar.reduce((sum, { mol, charge, volume }) => sum + mol * (volume + growth * charge ** 2), 0);
  return Math.max(0.2, 0.997047 * (1 - room / 1000));
}
