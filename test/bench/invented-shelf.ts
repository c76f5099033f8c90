import { formula, nutrientsPerGram } from '../../src/chemistry/formula.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { elementPerOxide } from '../../src/chemistry/oxides.js';
import { type Dice, dice } from '../solver/dice.js';

/**
 * A shelf.csv of so many invented products, each mixed from salts that we draw, its figures rounded down as guarantees are: two of three
 * name their salts, every fourth is a liquid. No two are alike. Packs and prices are drawn too.
 */
export function inventedShelf(products: number, seed = 1): string {
  const d = dice(seed);
  const rows = Array.from({ length: products }, (_, i) => row(i + 1, d));
  return `# Invented products, drawn by seed ${seed}.\n${HEADER.join(',')}\n${rows.join('\n')}\n`;
}

const MAIN: readonly (readonly [name: string, formula: string])[] = [
  ['potassium nitrate', 'KNO3'],
  ['calcium nitrate', 'Ca(NO3)2·4H2O'],
  ['magnesium nitrate', 'Mg(NO3)2·6H2O'],
  ['ammonium nitrate', 'NH4NO3'],
  ['ammonium sulfate', '(NH4)2SO4'],
  ['urea', 'CO(NH2)2'],
  ['monoammonium phosphate', 'NH4H2PO4'],
  ['monopotassium phosphate', 'KH2PO4'],
  ['potassium sulfate', 'K2SO4'],
  ['potassium chloride', 'KCl'],
  ['magnesium sulfate', 'MgSO4·7H2O'],
];
const TRACE: readonly (readonly [name: string, formula: string])[] = [
  ['iron EDTA', 'FeC10H12N2O8Na'],
  ['manganese sulfate', 'MnSO4·H2O'],
  ['zinc sulfate', 'ZnSO4·7H2O'],
  ['copper sulfate', 'CuSO4·5H2O'],
  ['boric acid', 'H3BO3'],
  ['sodium molybdate', 'Na2MoO4·2H2O'],
];

const FIGURES = ['N', 'NO3-N', 'NH4-N', 'urea-N', 'P2O5', 'K2O', 'Ca', 'Mg', 'S', 'Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'];
const HEADER = ['id', 'form', 'basis', ...FIGURES, 'density', 'derived_from', 'pack', 'price', 'max_rate'];

function row(number: number, d: Dice): string {
  const liquid = d.chance(0.25);
  const salts = [...drawn(MAIN, d.whole(2, 5), d), ...(d.chance(0.6) ? drawn(TRACE, d.whole(1, 6), d) : [])];
  const weights = salts.map((salt) => (TRACE.includes(salt) ? d.between(0.001, 0.015) : d.between(0.1, 1)));
  return printed(number, d, { liquid, salts, weights });
}

interface Made {
  liquid: boolean;
  salts: readonly (readonly [name: string, formula: string])[];
  /** Parts by mass. */
  weights: readonly number[];
}

/** A product as its label prints it. */
function printed(number: number, d: Dice, { liquid, salts, weights }: Made): string {
  const sum = weights.reduce((total, weight) => total + weight, 0);
  const grams = (liquid ? d.between(10, 35) : d.between(75, 98)) / sum;
  const percent = (nutrient: Nutrient): number =>
    salts.reduce(
      (total, [, text], i) => total + (weights[i]! * grams * nutrientsPerGram(formula(text))[nutrient]) / 1000,
      0,
    );
  const figure = (column: string): string => {
    const oxide = column === 'P2O5' || column === 'K2O';
    const value = oxide
      ? percent(column === 'P2O5' ? 'P' : 'K') / elementPerOxide(column)
      : percent(column as Nutrient);
    // the forms as they are printed: chelating agents hold nitrogen that no label claims
    if (column === 'N') return positive(FORMS.reduce((total, form) => total + Number(figure(form)), 0).toFixed(1));
    // three labels in four say nothing of sulfur
    if (column === 'S' && number % 4 !== 0) return '';
    return positive(floor(value, TRACES.has(column) ? 3 : 1));
  };
  const names = number % 3 === 0 ? '' : salts.map(([name]) => name).join('; ');
  return [
    `invented-${number}`,
    liquid ? 'liquid' : 'powder',
    liquid ? 'w/w' : '',
    ...FIGURES.map(figure),
    liquid ? floor(1 + grams * sum * 0.006, 2) : '',
    names,
    liquid ? '500 mL' : '500 g',
    floor(d.between(4, 20), 2),
    liquid ? '3 mL/L' : '2 g/L',
  ].join(',');
}

/**
 * A shelf of thirty as somebody gathers it who collects fertilizers: complete powders and liquids with every trace element, some for bloom or
 * for growth, calcium powders, bottles of calcium with magnesium, trace mixtures, and salts by themselves.
 */
export function gatheredShelf(seed = 1): string {
  const d = dice(seed);
  const rows = KINDS.flatMap(([many, liquid, parts]) => Array.from({ length: many }, () => ({ liquid, parts }))).map(
    ({ liquid, parts }, i) => {
      const named = Object.entries(parts);
      const salts = named.map(([name]) => [...MAIN, ...TRACE].find(([other]) => other === name)!);
      return printed(i + 1, d, { liquid, salts, weights: named.map(([, part]) => part * d.between(0.7, 1.3)) });
    },
  );
  return `# Invented products, drawn by seed ${seed}.\n${HEADER.join(',')}\n${rows.join('\n')}\n`;
}

const TRACES_OF_ALL = {
  'iron EDTA': 0.01,
  'manganese sulfate': 0.0025,
  'zinc sulfate': 0.0018,
  'copper sulfate': 0.0008,
  'boric acid': 0.0015,
  'sodium molybdate': 0.0002,
};
/** How many of a kind, whether it is a liquid, and its parts by mass. */
const KINDS: readonly [many: number, liquid: boolean, parts: Record<string, number>][] = [
  [
    5,
    false,
    {
      'potassium nitrate': 0.35,
      'monoammonium phosphate': 0.2,
      urea: 0.25,
      'magnesium sulfate': 0.1,
      ...TRACES_OF_ALL,
    },
  ],
  [
    4,
    false,
    {
      'potassium nitrate': 0.4,
      'calcium nitrate': 0.35,
      'monopotassium phosphate': 0.1,
      'magnesium nitrate': 0.12,
      ...TRACES_OF_ALL,
    },
  ],
  [
    3,
    false,
    { 'monopotassium phosphate': 0.5, 'potassium nitrate': 0.35, 'magnesium sulfate': 0.15, ...TRACES_OF_ALL },
  ],
  [3, false, { 'ammonium nitrate': 0.4, 'potassium nitrate': 0.3, 'monoammonium phosphate': 0.15, ...TRACES_OF_ALL }],
  [3, true, { 'potassium nitrate': 0.35, 'ammonium nitrate': 0.2, 'monopotassium phosphate': 0.2, ...TRACES_OF_ALL }],
  [2, true, { 'calcium nitrate': 0.7, 'magnesium nitrate': 0.3 }],
  [2, false, { 'calcium nitrate': 0.85, 'magnesium nitrate': 0.15 }],
  [2, false, { 'magnesium sulfate': 0.6, ...TRACES_OF_ALL }],
  [1, false, { 'calcium nitrate': 1 }],
  [1, false, { 'potassium nitrate': 1 }],
  [1, false, { 'monopotassium phosphate': 1 }],
  [1, false, { 'magnesium sulfate': 1 }],
  [1, false, { 'potassium sulfate': 1 }],
  [1, false, { 'ammonium sulfate': 1 }],
];

const FORMS = ['NO3-N', 'NH4-N', 'urea-N'];
const TRACES: ReadonlySet<string> = new Set(['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo']);
const floor = (value: number, digits: number): string =>
  (Math.floor(value * 10 ** digits) / 10 ** digits).toFixed(digits);

const positive = (text: string): string => (Number(text) > 0 ? text : '');

/** So many of them, each once. */
function drawn<T>(from: readonly T[], many: number, d: Dice): T[] {
  const left = [...from];
  return Array.from({ length: Math.min(many, left.length) }, () => left.splice(d.whole(0, left.length - 1), 1)[0]!);
}
