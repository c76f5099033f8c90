import type { Formula } from './formula.js';
import type { Nutrient } from './nutrients.js';
import { atomicWeight } from './weights.js';

/**
 * The ions of a solution: mmol of each (NO3 and NH4 as ions, P as total phosphate, SO4 as total sulfur) and `alkalinity` in meq.
 * The zero level of alkalinity is H2PO4−, H2CO3 and H4SiO4: K2HPO4 and KOH bring +1, K2CO3 +2, H3PO4 and HNO3 −1.
 */
export interface Ions {
  K: number;
  Ca: number;
  Mg: number;
  Na: number;
  NH4: number;
  NO3: number;
  P: number;
  SO4: number;
  Cl: number;
  alkalinity: number;
}

/** Charge of each strong ion; phosphate counts as H2PO4−. */
export const CHARGES: Readonly<Record<Exclude<keyof Ions, 'alkalinity'>, number>> = {
  K: 1,
  Ca: 2,
  Mg: 2,
  Na: 1,
  NH4: 1,
  NO3: -1,
  P: -1,
  SO4: -2,
  Cl: -1,
};

/** Which nutrient an ion is counted as, in order of `CHARGES`. */
export const ION_NUTRIENTS: Readonly<Record<Exclude<keyof Ions, 'alkalinity'>, Nutrient>> = {
  K: 'K',
  Ca: 'Ca',
  Mg: 'Mg',
  Na: 'Na',
  NH4: 'NH4-N',
  NO3: 'NO3-N',
  P: 'P',
  SO4: 'S',
  Cl: 'Cl',
};

/** mmol of an ion in one mg of its nutrient. */
export function mmolPerMg(ion: Exclude<keyof Ions, 'alkalinity'>): number {
  const nutrient = ION_NUTRIENTS[ion];
  return 1 / atomicWeight(nutrient.endsWith('-N') ? 'N' : nutrient);
}

const NAMES = Object.keys(CHARGES) as Exclude<keyof Ions, 'alkalinity'>[];

/** mmol (alkalinity: meq) in one gram of a pure substance; alkalinity closes the charge balance. */
export function ionsPerGram(substance: Formula): Ions {
  const perGram = 1000 / substance.molarMass;
  const n = (element: string): number => (substance.atoms.get(element) ?? 0) * perGram;
  const ions: Ions = {
    K: n('K'),
    Ca: n('Ca'),
    Mg: n('Mg'),
    Na: n('Na'),
    NH4: substance.nitrogen['NH4-N'] * perGram,
    NO3: substance.nitrogen['NO3-N'] * perGram,
    P: n('P'),
    SO4: n('S'),
    Cl: n('Cl'),
    alkalinity: 0,
  };
  const balance = chargeOf(ions) + minorCharge(substance) * perGram;
  return { ...ions, alkalinity: Math.abs(balance) < 1e-9 * perGram ? 0 : balance };
}

/** mmol from mg of each nutrient (per L, g or mL alike); alkalinity closes the balance of the ions given. */
export function ionsFromNutrients(mg: Partial<Record<Nutrient, number>>): Ions {
  const ions = Object.fromEntries(
    NAMES.map((ion) => [ion, (mg[ION_NUTRIENTS[ion]] ?? 0) * mmolPerMg(ion)]),
  ) as unknown as Ions;
  return { ...ions, alkalinity: chargeOf(ions) };
}

/** Σ charge · mmol of the strong ions, meq. */
export function chargeOf(ions: Omit<Ions, 'alkalinity'>): number {
  return NAMES.reduce((sum, ion) => sum + CHARGES[ion] * ions[ion], 0);
}

/**
 * Charge per mole of what is not tabled as an ion: metals M2+ (iron in a chelate 3+, its usual form), molybdate MoO4 2−, chelating
 * agents fully charged around a metal, citrate 2− and acetate 1− (their charge near pH 5.5). Free EDTA holds two protons.
 */
function minorCharge({ atoms, parts }: Formula): number {
  const n = (element: string): number => atoms.get(element) ?? 0;
  const metals = n('Mn') + n('Zn') + n('Cu') + n('Fe') + n('Co') + n('Ni');
  const bound = metals + n('Ca') + n('Mg') > 0;
  const chelate = parts.some((part) => chelatorCharge(part.atoms) !== undefined);
  const organic = parts.reduce((sum, { count, atoms: part }) => {
    const chelator = chelatorCharge(part);
    return sum + count * (chelator === undefined ? acidCharge(part) : chelator - (bound ? 0 : -2));
  }, 0);
  return 2 * metals + (chelate ? n('Fe') : 0) - 2 * n('Mo') + organic;
}

/** EDTA C10…N2, HEDTA the same with one oxygen less, EDDHA C18…N2, EDDHMA C20…N2, DTPA C14…N3, fully charged. */
function chelatorCharge(part: ReadonlyMap<string, number>): number | undefined {
  const kind = `C${part.get('C') ?? 0}N${part.get('N') ?? 0}`;
  if (kind === 'C10N2' && part.get('O') === 7) return -3;
  return { C10N2: -4, C18N2: -4, C20N2: -4, C14N3: -5 }[kind];
}

/** Citrate C6…O7 (or twice that) 2− each, acetate C2…O2 (or twice that) 1− each. */
function acidCharge(part: ReadonlyMap<string, number>): number {
  const [c, o, n] = [part.get('C') ?? 0, part.get('O') ?? 0, part.get('N') ?? 0];
  if (n > 0) return 0;
  if ((c === 6 || c === 12) && o === (7 * c) / 6) return -c / 3;
  return (c === 2 || c === 4) && o === c ? -c / 2 : 0;
}
