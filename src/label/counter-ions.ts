import { nutrientsPerGram, parseFormula } from '../chemistry/formula.js';
import { CHARGES, ION_NUTRIENTS, type Ions, ionsPerGram, mmolPerMg, type StrongIon } from '../chemistry/ions.js';
import { NUTRIENTS, type PerNutrient } from '../chemistry/nutrients.js';
import { NONE } from '../chemistry/conductivity.js';
import { atomicWeight } from '../chemistry/weights.js';
import type { Composition, Content } from './composition.js';

/**
 * The ions that one g or mL sets free, in mmol (alkalinity in meq), each a whole make-up whose charges balance: the likeliest, the
 * least and the most conductive, the most acid and the most alkaline.
 */
export interface ProductIons extends Ends<Ions> {
  value: Ions;
  /** The same ends for nine of ten products with such a label; absent where they are the same. */
  usual?: Ends<Ions>;
  /** A formula settles everything; a list of sources nearly so; a bare label is closed by what is likely behind it. */
  from: 'formula' | 'sources' | 'label alone';
}

/** What one g or mL may set free at the ends of what its label allows. */
export interface Ends<T> {
  leastConductive: T;
  mostConductive: T;
  acid: T;
  alkaline: T;
}

/** The ions of a pure salt, acid or alkali in the strength that the composition tells. */
export function ionsOfFormula(text: string, { content }: Composition): ProductIons | null {
  const read = parseFormula(text);
  if (!read.ok) return null;
  const mg = nutrientsPerGram(read.value);
  const held = NUTRIENTS.find((n) => mg[n] > 0);
  const share = held === undefined ? 1 : (content[held].stated ?? 0) / mg[held];
  const ions = times(ionsPerGram(read.value), share);
  return { value: ions, leastConductive: ions, mostConductive: ions, acid: ions, alkaline: ions, from: 'formula' };
}

/**
 * The ions of a label without a usable list of sources. Cation charge that the figures leave over is balanced by sulfate and chloride
 * alike (mostConductive: by chloride, leastConductive and alkaline: by bicarbonate) where the label is silent on them, else by bicarbonate; anion
 * charge left over by sodium where it may be there (leastConductive), else by acid (mostConductive, acid). Nitrogen without a form counts half as ammonium and
 * nitrate, in leastConductive not at all and in mostConductive wholly, as far as those forms are possible. Charges within 3 % are rounding.
 */
export function ionsOfLabel({ content }: Composition): ProductIons {
  const half = strong(content, 0.5);
  const none = strong(content, 0);
  const all = strong(content, 1);
  const open = (n: 'S' | 'Cl' | 'Na'): number => content[n].high - (content[n].stated ?? content[n].low);
  const room = {
    SO4: open('S') * mmolPerMg('SO4'),
    Cl: open('Cl') * mmolPerMg('Cl'),
    Na: open('Na') * mmolPerMg('Na'),
  };
  return {
    value: balanced(half, room, 'even'),
    leastConductive: balanced(none, room, 'alkali'),
    mostConductive: balanced(all, room, 'chloride'),
    acid: balanced(half, room, 'acid'),
    alkaline: balanced(half, room, 'alkali'),
    from: 'label alone',
  };
}

/** The ions of the figures themselves, where all nitrogen has a form and the charges balance within rounding: then the label tells all that conducts. */
export function ionsTold({ content }: Composition): Ions | null {
  const [none, all] = [strong(content, 0), strong(content, 1)];
  if (all.NO3 + all.NH4 > (none.NO3 + none.NH4) * (1 + ROUNDING)) return null;
  const { cations, anions } = chargesOf(none);
  if (!(cations > 0) || Math.abs(cations - anions) > ROUNDING * Math.max(cations, anions)) return null;
  return balanced(none, { SO4: 0, Cl: 0, Na: 0 }, 'even');
}

const STRONG = Object.keys(CHARGES) as StrongIon[];
const ROUNDING = 0.03;

/** Declared ions; `share` of the nitrogen without a form is counted as ammonium and nitrate. */
function strong(content: PerNutrient<Content>, share: number): Ions {
  const stated = (n: Content): number => n.stated ?? n.low;
  const ions = Object.fromEntries(
    STRONG.map((ion) => [ion, stated(content[ION_NUTRIENTS[ion]]) * mmolPerMg(ion)]),
  ) as unknown as Ions;
  const forms = (['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const).reduce((sum, f) => sum + stated(content[f]), 0);
  const rest = Math.max(0, stated(content.N) - forms) * mmolPerMg('NO3') * share;
  const ionic = (['NO3', 'NH4'] as const).filter(
    (ion) => content[ION_NUTRIENTS[ion]].high > stated(content[ION_NUTRIENTS[ion]]),
  );
  for (const ion of ionic) ions[ion] += rest / ionic.length;
  const acid = (n: 'Si' | 'B'): number => stated(content[n]) / atomicWeight(n);
  return { ...NONE, ...ions, silicate: acid('Si'), borate: acid('B') };
}

function balanced(
  ions: Ions,
  room: Record<'SO4' | 'Cl' | 'Na', number>,
  by: 'even' | 'chloride' | 'alkali' | 'acid',
): Ions {
  const { cations, anions } = chargesOf(ions);
  const left = cations - anions;
  if (Math.abs(left) <= ROUNDING * Math.max(cations, anions)) {
    return left > 0 ? { ...ions, Cl: ions.Cl + left } : { ...ions, Na: ions.Na - left };
  }
  if (left < 0) {
    const sodium = by === 'acid' || by === 'chloride' ? 0 : Math.min(-left, room.Na);
    return { ...ions, Na: ions.Na + sodium, alkalinity: left + sodium };
  }
  const half = by === 'even' ? left / 2 : left;
  const chloride = by === 'alkali' ? 0 : Math.min(half, room.Cl);
  const sulfate = by === 'alkali' ? 0 : Math.min(left - chloride, 2 * room.SO4) / 2;
  const more = by === 'alkali' ? 0 : Math.min(left - chloride - 2 * sulfate, room.Cl - chloride);
  const alkalinity = left - chloride - 2 * sulfate - more;
  return {
    ...ions,
    Cl: ions.Cl + chloride + more,
    SO4: ions.SO4 + sulfate,
    alkalinity,
    // phosphate as HPO4 and silicate come before bicarbonate
    carbonate: Math.max(0, alkalinity - ions.P - ions.silicate),
  };
}

const chargesOf = (ions: Ions): { cations: number; anions: number } => ({
  cations: STRONG.reduce((sum, ion) => sum + Math.max(0, CHARGES[ion]) * ions[ion], 0),
  anions: STRONG.reduce((sum, ion) => sum + Math.max(0, -CHARGES[ion]) * ions[ion], 0),
});

/** Part of the way from one make-up to another; whole make-ups all, so the charges of what lies between balance too. */
export function between(from: Ions, to: Ions, share: number): Ions {
  return Object.fromEntries(
    (Object.keys(from) as (keyof Ions)[]).map((ion) => [ion, from[ion] + share * (to[ion] - from[ion])]),
  ) as unknown as Ions;
}

/** Every ion times a factor. */
export function times(ions: Ions, factor: number): Ions {
  return Object.fromEntries(Object.entries(ions).map(([ion, mmol]) => [ion, mmol * factor])) as unknown as Ions;
}
