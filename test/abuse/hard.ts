import { readFileSync } from 'node:fs';
import { parse } from 'csv-parse/sync';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { PHASES } from '../../src/programme/index.js';
import type { Case } from './case.js';
import { Chance } from './chance.js';

type Row = Record<string, string>;

const PRODUCTS = ['products', 'salts'].flatMap((name): Row[] =>
  parse(readFileSync(`catalog/${name}.csv`, 'utf8'), { columns: true, comment: '#', comment_no_infix: true }),
);
const COLUMNS = [...new Set(PRODUCTS.flatMap((row) => Object.keys(row)))].filter((name) => name !== 'refs');

const KITS = [
  '',
  'kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp] }',
  'kit: { spoons: [1/2 tsp] }',
  'kit: { spoons: [1 tsp, 1/4 tsp], scale: 1 g, syringe: 5 mL }',
  'kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.1 g, cans: [10 L] }',
  'kit: { spoons: [1 tsp, 1/2 tsp, 1/4 tsp, 1/8 tsp], scale: 0.01 g, syringe: 1 mL, dropper: 20 drops/mL }',
  'kit: { scale: 0.1 g ± 0.1 g, syringe: 5 mL by 0.2 mL, cans: [1 US gal, 20 L] }',
];
const WATERS = [
  'water: { use: rain }',
  'water: { use: hard-tap }',
  'water: [{ use: rain, price: 0.01 }, { use: median-tap, price: 0.002 }]',
  'water: { Ca: 30, Mg: 8, K: 2, Na: 20, NO3-N: 3, S: 9, Cl: 30, alkalinity: 80 }',
];
const PENS = ['', 'pen: EC', 'pen: { scale: 500 }'];
const RULES = ['', '', '', 'rules: ["NH4 <= 0.1 * N"]', 'rules: ["Cl <= 20"]', 'rules: ["Ca >= 3 * Mg", "EC <= 0.5"]'];
const STRENGTHS = ['20 %', '25 %', '35 %', '50 %', '80 %', '100 %', '120 %'];
const BATCHES = ['0.5 L', '1 L', '2 L', '4 L', '10 L', '2 US gal'];
const WEEKLY = ['', 'weekly: 1 L', 'weekly: 6 L', 'weekly: 30 L'];

const ASKED = [
  ['blend'],
  ['blend'],
  ['blend', '--full'],
  ['blend', '--json'],
  ['blend', '--sure', '95%'],
  ['blend', '--sure', '99%'],
  ['blend', '--near', '10%'],
  ['blend', '--near', '100%'],
  ['blend', '--at-most', '2'],
  ['blend', '--at-most', '4'],
  ['blend', '--at-most', '7'],
  ['blend', '--one'],
  ['blend', '--one', '--full'],
  ['blend', '--frontier'],
  ['blend', '--closest'],
  ['blend', '--prices'],
  ['blend', '--by', 'measure'],
  ['blend', '--by', 'pen'],
  ['reach'],
  ['reach', '--full'],
  ['buy'],
  ['buy', '--at-most', '3'],
  ['buy', '--full'],
  ['sheet'],
  ['sheet', '--full'],
  ['meter', '--reading', '0.8 mS/cm'],
  ['concentrate'],
  ['season'],
  ['season', '--full'],
];

/** A bench that is hard to feed from, nothing wrong with it, and a question that takes work. */
export function hardCase(seed: number): Case {
  const chance = new Chance(seed + 500_000_000);
  const { plants } = shippedCatalog();
  const feeds = Array.from({ length: chance.one([1, 1, 2, 3, 5]) }, (_, n) => {
    const group = chance.one(plants);
    const lines = [
      `feed ${n + 1}:`,
      `  plants: ${group.id}`,
      `  medium: ${chance.one(group.media)}`,
      `  phase: ${chance.one([...PHASES, 'growth', 'growth'])}`,
      `  strength: ${chance.one(STRENGTHS)}`,
      `  batch: ${chance.one(BATCHES)}`,
      ...[chance.one(WEEKLY), chance.one(RULES)].filter((line) => line !== '').map((line) => `  ${line}`),
    ];
    return lines.map((line) => `  ${line}`).join('\n');
  });
  const bench = ['currency: EUR', chance.one(WATERS), chance.one(KITS), chance.one(PENS), 'feeds:', ...feeds];
  const rows = new Set(Array.from({ length: chance.one([3, 6, 10, 15, 30]) }, () => chance.one(PRODUCTS)));
  const bare = chance.yes(0.3) ? ['bulk_density'] : [];
  const cells = (row: Row): string =>
    COLUMNS.map((name) => (bare.includes(name) ? '' : `"${(row[name] ?? '').replaceAll('"', '""')}"`)).join(',');
  const shelf = [COLUMNS.join(','), ...[...rows].map(cells)];
  const argv = [...chance.one(ASKED)];
  return {
    seed,
    files: {
      'bench.yaml': `${bench.filter((line) => line !== '').join('\n')}\n`,
      'shelf.csv': `${shelf.join('\n')}\n`,
    },
    argv,
  };
}
