import { formula, nutrientsPerGram } from '../../src/chemistry/formula.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { elementPerOxide } from '../../src/chemistry/oxides.js';
import { openBench } from '../../src/desk/open-bench.js';
import type { OpenBench } from '../../src/desk/opened.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { type Dice, dice } from '../solver/dice.js';

type Salts = readonly (readonly [salt: keyof typeof FORMULAS, gramsLow: number, gramsHigh: number])[];

const FORMULAS = {
  'potassium nitrate': 'KNO3',
  'calcium nitrate': 'Ca(NO3)2·4H2O',
  'magnesium nitrate': 'Mg(NO3)2·6H2O',
  'ammonium nitrate': 'NH4NO3',
  urea: 'CO(NH2)2',
  'monoammonium phosphate': 'NH4H2PO4',
  'monopotassium phosphate': 'KH2PO4',
  'potassium sulfate': 'K2SO4',
  'magnesium sulfate': 'MgSO4·7H2O',
  'iron EDTA': 'FeC10H12N2O8Na',
  'manganese sulfate': 'MnSO4·H2O',
  'zinc sulfate': 'ZnSO4·7H2O',
  'copper sulfate': 'CuSO4·5H2O',
  'boric acid': 'H3BO3',
  'sodium molybdate': 'Na2MoO4·2H2O',
} as const;

/** Parts by weight; what a trace mix holds is scaled as a whole, so that its elements keep the proportions of the trade. */
const TRACES: Salts = [
  ['iron EDTA', 7, 16],
  ['manganese sulfate', 1, 2.4],
  ['zinc sulfate', 0.4, 1.2],
  ['copper sulfate', 0.15, 0.5],
  ['boric acid', 0.6, 1.8],
  ['sodium molybdate', 0.02, 0.06],
];

interface Invented {
  id: string;
  form: 'powder' | 'liquid';
  salts: Salts;
  /** Parts by weight of the whole trace mix; 0: none. */
  traces: number;
  namesSalts: boolean;
  rate: string;
}

const BASE: Salts = [
  ['potassium nitrate', 38, 56],
  ['monopotassium phosphate', 8, 20],
  ['magnesium sulfate', 12, 30],
  ['potassium sulfate', 0, 10],
];
const BALANCED: Salts = [
  ['potassium nitrate', 30, 45],
  ['monoammonium phosphate', 8, 25],
  ['urea', 8, 20],
  ['ammonium nitrate', 0, 15],
  ['magnesium sulfate', 0, 6],
];
const ONE_PART: Salts = [
  ['calcium nitrate', 35, 50],
  ['potassium nitrate', 18, 30],
  ['magnesium nitrate', 8, 18],
  ['monoammonium phosphate', 3, 8],
  ['ammonium nitrate', 0, 6],
];
const CALCIUM: Salts = [
  ['calcium nitrate', 70, 90],
  ['magnesium nitrate', 8, 25],
];
const BLOOM: Salts = [
  ['potassium nitrate', 15, 30],
  ['monopotassium phosphate', 20, 35],
  ['potassium sulfate', 10, 25],
  ['magnesium sulfate', 5, 15],
];

/** The products of a grower who knows what a shelf needs: seven to nine of them. */
function products(d: Dice): Invented[] {
  const liquid = d.chance(0.4);
  const shelf: Invented[] = [
    { id: 'base', form: 'powder', salts: BASE, traces: d.between(1.2, 2.5), namesSalts: d.chance(0.6), rate: '1 g/L' },
    { id: 'calcium-part', form: 'powder', salts: CALCIUM, traces: 0, namesSalts: d.chance(0.6), rate: '1 g/L' },
    { id: 'balanced', form: 'powder', salts: BALANCED, traces: d.between(0.8, 2), namesSalts: true, rate: '1 g/L' },
    {
      id: 'trace',
      form: liquid ? 'liquid' : 'powder',
      salts: [],
      traces: liquid ? d.between(1, 3) : 60,
      namesSalts: true,
      rate: liquid ? '3 mL/L' : '0.1 g/L',
    },
  ];
  if (d.chance(0.6))
    shelf.push({
      id: 'calcium-magnesium',
      form: 'liquid',
      salts: CALCIUM,
      traces: 0,
      namesSalts: d.chance(0.5),
      rate: '4 mL/L',
    });
  if (d.chance(0.5))
    shelf.push({
      id: 'one-part',
      form: 'powder',
      salts: ONE_PART,
      traces: d.between(1.5, 2.5),
      namesSalts: d.chance(0.5),
      rate: '1.5 g/L',
    });
  if (d.chance(0.4))
    shelf.push({ id: 'bloom', form: 'powder', salts: BLOOM, traces: d.between(1, 2), namesSalts: true, rate: '1 g/L' });
  return shelf;
}

const SALTS = ['potassium nitrate', 'monopotassium phosphate', 'magnesium sulfate', 'calcium nitrate'] as const;
const FIGURES = [
  ...['N', 'NO3-N', 'NH4-N', 'urea-N', 'P2O5', 'K2O', 'Ca', 'Mg', 'S'],
  ...['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'],
];
const HEADER = [
  ...['id', 'form', 'basis', 'formula', ...FIGURES],
  ...['density', 'derived_from', 'pack', 'price', 'max_rate', 'bulk_density'],
];
const FORMS = ['NO3-N', 'NH4-N', 'urea-N'];

function lineOf({ id, form, salts, traces, namesSalts, rate }: Invented, d: Dice): string {
  const drawn = [...salts, ...(traces > 0 ? TRACES : [])].map(
    ([name, low, high]) => [name, d.between(low, high)] as const,
  );
  const isTrace = (name: string): boolean => TRACES.some(([trace]) => trace === name);
  const sum = (of: boolean): number => drawn.reduce((s, [name, w]) => (isTrace(name) === of ? s + w : s), 0);
  const solids = form === 'liquid' ? (salts.length > 0 ? d.between(25, 45) : 0) : 98 - traces;
  const grams = (name: string, weight: number): number =>
    isTrace(name) ? (weight / sum(true)) * traces : (weight / sum(false)) * solids;
  const american = d.chance(0.5);
  const percent = (nutrient: Nutrient): number =>
    drawn.reduce((s, [name, w]) => {
      return s + (grams(name, w) * nutrientsPerGram(formula(FORMULAS[name]))[nutrient]) / 1000;
    }, 0);
  const figure = (column: string): string => {
    if (column === 'N')
      return printed(
        FORMS.reduce((s, one) => s + Number(figure(one)), 0),
        1,
      );
    const oxide = column === 'P2O5' || column === 'K2O';
    const value = oxide
      ? percent(column === 'P2O5' ? 'P' : 'K') / elementPerOxide(column)
      : percent(column as Nutrient);
    // chelating agents hold nitrogen that no label claims
    if (FORMS.includes(column) && sum(false) === 0) return '';
    if (column === 'S' && american) return '';
    const digits = ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo'].includes(column) ? (column === 'Mo' ? 4 : 3) : 1;
    return printed(value, digits);
  };
  return [
    ...[`invented-${id}`, form, form === 'liquid' ? 'w/w' : '', '', ...FIGURES.map(figure)],
    form === 'liquid' ? printed(1 + 0.006 * solids, 2) : '',
    namesSalts
      ? drawn
          .filter(([name, w]) => grams(name, w) > 0)
          .map(([name]) => name)
          .join('; ')
      : '',
    form === 'liquid' ? '500 mL' : '500 g',
    printed(d.between(5, 16), 2),
    rate,
    form === 'liquid' ? '' : printed(d.between(0.8, 1.1), 2),
  ].join(',');
}

/** Rounded down, as a guarantee is. */
function printed(value: number, digits: number): string {
  const text = (Math.floor(value * 10 ** digits + 1e-9) / 10 ** digits).toFixed(digits);
  return Number(text) > 0 ? text : '';
}

function saltLine(name: (typeof SALTS)[number], d: Dice): string {
  const blanks = FIGURES.map(() => '');
  return [
    name.replaceAll(' ', '-'),
    'powder',
    '',
    FORMULAS[name],
    ...blanks,
    '',
    '',
    '1 kg',
    printed(d.between(3, 10), 2),
    '',
    '1',
  ].join(',');
}

const KELP = [
  'invented-kelp',
  'liquid',
  'w/v',
  '',
  ...FIGURES.map((f) => ({ N: '0.1', P2O5: '0.05', K2O: '1.5' })[f] ?? ''),
];

const PLANTS = [
  ...['phalaenopsis', 'cattleya', 'dendrobium', 'oncidium', 'vanda', 'cymbidium', 'paphiopedilum'],
  ...['pleurothallid', 'bromeliad', 'fern', 'hoya', 'african-violet'],
];
const WORDS = ['growth', 'growth', 'bloom', 'rest'];

/** A feed of a good grower's shelf: 0.01 g scale, syringe, 4 L, rain. Everything but the generic salts is invented. */
export async function goodShelf(seed: number): Promise<{ open: OpenBench; request: FeedRequest; shelf: string }> {
  const d = dice(seed);
  const invented = products(d);
  const salts = [...SALTS].sort(() => d.unit() - 0.5).slice(0, Math.max(d.whole(1, 2), 6 - invented.length));
  const lines = [...invented.map((product) => lineOf(product, d)), ...salts.map((salt) => saltLine(salt, d))];
  const kelp = [...KELP, '', 'kelp extract', '500 mL', printed(d.between(6, 12), 2), '5 mL/L', ''].join(',');
  if (lines.length < 7 || (lines.length < 9 && d.chance(0.7))) lines.push(kelp);
  const shelf = `# Invented products beside generic salts.\n${HEADER.join(',')}\n${lines.join('\n')}\n`;
  const plants = shippedCatalog().plants.find(({ id }) => id === PLANTS[seed % PLANTS.length])!;
  // a third in moss where the plants may stand in it
  const medium = d.chance(0.35) && plants.media.includes('sphagnum') ? 'sphagnum' : d.pick(plants.media);
  const bench = `name: any
currency: EUR
water: { use: rain }
kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.01 g, syringe: 1 mL }
feeds:
  can:
    plants: ${plants.id}
    medium: ${medium}
    phase: ${d.pick(WORDS)}
    strength: ${d.pick([50, 60, 75, 80, 100])} %
    batch: 4 L
`;
  const open = await openBench(
    { bench: { name: 'bench.yaml', text: bench }, shelf: { name: 'shelf.csv', text: shelf } },
    {},
  );
  return { open, request: open.requests[0]!, shelf };
}
