import { formula, nutrientsPerGram } from '../chemistry/formula.js';
import { NONE } from '../chemistry/conductivity.js';
import { type Ions, ionsPerGram } from '../chemistry/ions.js';
import { linearEcOfIons } from '../chemistry/linear-ec.js';
import { NITROGEN_FORMS, NUTRIENTS, type Nutrient, type PerNutrient, perNutrient } from '../chemistry/nutrients.js';
import { allSalts, type Salt } from '../chemistry/salts.js';
import type { Composition } from './composition.js';
import type { NitrogenForm } from './left-open.js';

/** What one mg of a dry source brings: mg of nutrients as a label claims them, and ions in mmol. */
export interface Source {
  /** Without water of crystallisation. */
  formula: string;
  /** mg as it is usually sold, with its water of crystallisation. */
  asSold: number;
  mg: PerNutrient<number>;
  ions: Ions;
  /** The linear estimate of what it adds to the EC of a litre, mS/cm. */
  conducts: number;
}

/** The sources that a list of salts may mean. */
export function sourcesNamed(salts: readonly Salt[]): Source[] {
  const dry = salts.flatMap(kinds).map(withoutWater);
  return [...new Set(dry)].map(sourceOf);
}

/**
 * Every source that may plausibly stand behind a label without a list: each salt that we know, if it brings something that the label
 * declares or would declare if it were more. What brings only what labels are silent on (sodium chloride as a mere filler) cannot be seen.
 * Left out besides: strong acids and urea phosphate, which a label must name as a hazard (and phosphoric acid in a powder); elemental sulfur and
 * thiosulfates, which are sold for the sulfur that their labels tell; chelates of calcium and magnesium, salts of organic acids and slow-release nitrogen, which are dear, so that labels name them; trace metals that do not dissolve. Organic nitrogen counts as protein.
 */
export function plausibleSources({ content, per }: Composition): Source[] {
  const told = NUTRIENTS.filter((n) => !SILENT.has(n) || (content[n].stated ?? 0) > 0);
  const sources = plausibleIn(per).filter(({ mg }) => told.some((n) => mg[n] > 0));
  return content['other-N'].high > 0 ? [...sources, PROTEIN] : sources;
}

function plausibleIn(per: Composition['per']): readonly Source[] {
  const before = PLAUSIBLE.get(per);
  if (before) return before;
  const salts = allSalts().filter(({ name, formula: text }) => {
    return !IMPLAUSIBLE.has(text) && !RARE.test(name) && !(per === 'g' && text === 'H3PO4');
  });
  const sources = sourcesNamed(salts);
  PLAUSIBLE.set(per, sources);
  return sources;
}

const PLAUSIBLE = new Map<Composition['per'], readonly Source[]>();

/** What labels need not declare. */
export const SILENT: ReadonlySet<Nutrient> = new Set<Nutrient>(['S', 'Na', 'Cl']);

export const TRACES: readonly Nutrient[] = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni'];

export const isForm = (nutrient: Nutrient): nutrient is NitrogenForm =>
  (NITROGEN_FORMS as readonly Nutrient[]).includes(nutrient);

const IMPLAUSIBLE: ReadonlySet<string> = new Set([
  'HNO3',
  'H2SO4',
  'HCl',
  'CO(NH2)2·H3PO4',
  'S',
  'K2S2O3',
  '(NH4)2S2O3',
]);
const RARE =
  /^(?:calcium|magnesium) edta$| (?:citrate|acetate|glycinate|diurea)$|^methylene urea$|^(?:iron|copper|manganese) oxide$|^(?:zinc|manganese) carbonate$/;

/**
 * A name may mean more than one salt: "calcium nitrate" the double salt as well, as it is sold to growers; "ammonium phosphate" and its
 * like one or two ammonium; soluble silicates hold up to four times the silica of their formula (all common practice, no source).
 */
function kinds({ name, formula: text }: Salt): string[] {
  const also = ALSO.get(name);
  if (also !== undefined) return [text, also];
  return name.endsWith(' silicate') ? [text, 'SiO2'] : [text];
}

const ALSO: ReadonlyMap<string, string> = new Map([
  ['calcium nitrate', '5Ca(NO3)2·NH4NO3·10H2O'],
  ['ammonium phosphate', '(NH4)2HPO4'],
  ['potassium phosphate', 'K2HPO4'],
  ['sodium phosphate', 'Na2HPO4'],
]);

/** Without water of crystallisation, which labels seldom tell and spray-dried products do not hold. */
const withoutWater = (text: string): string =>
  text
    .split('·')
    .filter((part) => !/^\d*H2O$/.test(part))
    .join('·');

/** The nitrogen of chelating agents is no plant food and no label claims it. */
function sourceOf(text: string): Source {
  const before = SOURCES.get(text);
  if (before) return before;
  const read = formula(text);
  const mg = nutrientsPerGram(read);
  const chelate = TRACES.some((trace) => mg[trace] > 0) || CHELATORS.test(text);
  const claimed = (n: Nutrient): number => {
    if (!chelate || (n !== 'N' && n !== 'other-N')) return mg[n];
    return n === 'N' ? mg.N - mg['other-N'] : 0;
  };
  const ions = inMmol(ionsPerGram(read));
  const source = {
    formula: text,
    asSold: asSold(text),
    mg: perNutrient((n) => claimed(n) / 1000),
    ions,
    conducts: linearEcOfIons(ions),
  };
  SOURCES.set(text, source);
  return source;
}

/** mg of a salt as it is usually sold for one mg of it dry: of several hydrates the one that we print first. */
function asSold(dry: string): number {
  SOLD ??= new Map([...allSalts()].reverse().map(({ formula: text }) => [withoutWater(text), text]));
  const sold = SOLD.get(dry);
  return sold === undefined ? 1 : formula(sold).molarMass / formula(dry).molarMass;
}

let SOLD: ReadonlyMap<string, string> | undefined;

const SOURCES = new Map<string, Source>();
const CHELATORS = /C10H12N2O8/;

const inMmol = (perGram: Ions): Ions =>
  Object.fromEntries(Object.entries(perGram).map(([ion, mmol]) => [ion, mmol / 1000])) as unknown as Ions;

/** Protein is 16 % nitrogen (the Kjeldahl factor 6.25). */
const PROTEIN: Source = {
  formula: 'protein',
  asSold: 1,
  mg: perNutrient((n) => (n === 'N' || n === 'other-N' ? 0.16 : 0)),
  ions: NONE,
  conducts: 0,
};
