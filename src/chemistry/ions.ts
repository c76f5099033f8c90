import type { Formula } from './formula.js';
import type { Nutrient } from './nutrients.js';
import { atomicWeight } from './weights.js';

/**
 * The ions of a solution: mmol of each (NO3 and NH4 as ions, P as total phosphate, SO4 as total sulfur) and `alkalinity` in meq.
 * The zero level of alkalinity is H2PO4−, H2CO3, H4SiO4, B(OH)3, citrate 2− and acetate 1−: K2HPO4 and KOH bring +1, K2CO3 +2, H3PO4 and
 * HNO3 −1. What of it stands behind weak acids beside phosphate is told by their mmol, whatever protons they hold.
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
  /** carbonate, bicarbonate and carbon dioxide together */
  carbonate: number;
  silicate: number;
  borate: number;
  citrate: number;
  acetate: number;
}

export const WEAK_ACIDS = ['carbonate', 'silicate', 'borate', 'citrate', 'acetate'] as const;
export type WeakAcid = (typeof WEAK_ACIDS)[number];

/** Ions that are counted as a nutrient each. */
export type StrongIon = Exclude<keyof Ions, 'alkalinity' | WeakAcid>;

/** Charge of each strong ion; phosphate counts as H2PO4−. */
export const CHARGES: Readonly<Record<StrongIon, number>> = {
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
export const ION_NUTRIENTS: Readonly<Record<StrongIon, Nutrient>> = {
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
export function mmolPerMg(ion: StrongIon): number {
  const nutrient = ION_NUTRIENTS[ion];
  return 1 / atomicWeight(nutrient.endsWith('-N') ? 'N' : nutrient);
}

const NAMES = Object.keys(CHARGES) as StrongIon[];

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
    carbonate: carbonates(substance) * perGram,
    silicate: n('Si'),
    borate: n('B'),
    citrate: organicAcid(substance, 'citrate') * perGram,
    acetate: organicAcid(substance, 'acetate') * perGram,
  };
  const balance = chargeOf(ions) + minorCharge(substance) * perGram;
  return { ...ions, alkalinity: Math.abs(balance) < 1e-9 * perGram ? 0 : balance };
}

/** mmol from mg of each nutrient (per L, g or mL alike); alkalinity closes the balance of the ions given. */
export function ionsFromNutrients(mg: Partial<Record<Nutrient, number>>): Ions {
  const ions = Object.fromEntries(
    NAMES.map((ion) => [ion, (mg[ION_NUTRIENTS[ion]] ?? 0) * mmolPerMg(ion)]),
  ) as unknown as Ions;
  const weak = { silicate: (mg.Si ?? 0) / atomicWeight('Si'), borate: (mg.B ?? 0) / atomicWeight('B') };
  return { ...ions, alkalinity: chargeOf(ions), carbonate: 0, ...weak, citrate: 0, acetate: 0 };
}

/** Σ charge · mmol of the strong ions, meq. */
export function chargeOf(ions: Pick<Ions, StrongIon>): number {
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

/** Moles of carbonate in a mole: carbon that stands with oxygen alone, or with one hydrogen beside it. */
function carbonates({ parts }: Formula): number {
  return parts.reduce((sum, { count, atoms: part }) => {
    const [c, o, h] = [part.get('C') ?? 0, part.get('O') ?? 0, (part.get('H') ?? 0) - 4 * (part.get('N') ?? 0)];
    return sum + (c > 0 && o === 3 * c && h <= c ? count * c : 0);
  }, 0);
}

/** Moles of citrate (C6…O7) or acetate (C2…O2), or twice that, in a mole. */
function organicAcid({ parts }: Formula, acid: 'citrate' | 'acetate'): number {
  const charge = { citrate: -2, acetate: -1 }[acid];
  return parts.reduce(
    (sum, { count, atoms }) => sum + (acidOf(atoms) === acid ? (count * acidCharge(atoms)) / charge : 0),
    0,
  );
}

function acidOf(part: ReadonlyMap<string, number>): 'citrate' | 'acetate' | null {
  const [c, o, n] = [part.get('C') ?? 0, part.get('O') ?? 0, part.get('N') ?? 0];
  if (n > 0) return null;
  if ((c === 6 || c === 12) && o === (7 * c) / 6) return 'citrate';
  return (c === 2 || c === 4) && o === c ? 'acetate' : null;
}

/** Citrate 2− each, acetate 1− each. */
function acidCharge(part: ReadonlyMap<string, number>): number {
  const acid = acidOf(part);
  const c = part.get('C') ?? 0;
  return acid === null ? 0 : acid === 'citrate' ? -c / 3 : -c / 2;
}
