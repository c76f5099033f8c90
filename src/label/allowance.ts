import type { Nutrient } from '../chemistry/nutrients.js';
import { isForm } from './sources.js';

/**
 * Investigational allowance in % of the product: how far a found secondary or minor nutrient may lie below its guarantee before a US
 * inspector acts (New Hampshire Agr 1105.04). Undefined where that rule gives none (nitrogen, phosphate, potash, silicon, nickel).
 */
export function allowance(nutrient: Nutrient, percent: number): number | undefined {
  const rule = RULES.get(nutrient);
  return rule && Math.min(1, rule.base + rule.share * percent);
}

const rule = (base: number, share: number, ...nutrients: Nutrient[]): [Nutrient, { base: number; share: number }][] =>
  nutrients.map((nutrient) => [nutrient, { base, share }]);

const RULES: ReadonlyMap<Nutrient, { base: number; share: number }> = new Map([
  ...rule(0.2, 0.05, 'Ca', 'Mg', 'S'),
  ...rule(0.003, 0.15, 'B'),
  ...rule(0.0001, 0.3, 'Co', 'Mo'),
  ...rule(0.005, 0.1, 'Cl', 'Cu', 'Fe', 'Mn', 'Na', 'Zn'),
]);

/**
 * The same for nitrogen (and its forms), phosphorus and potassium, by the table of the US control officials (AAPFCO, from memory),
 * which counts phosphate and potash as oxides; 0.5 % for what no table names.
 */
export function primaryAllowance(nutrient: Nutrient, percent: number): number {
  if (nutrient === 'N' || isForm(nutrient)) return between(NITROGEN, percent);
  if (nutrient === 'P') return between(PHOSPHATE, percent / P_IN_P2O5) * P_IN_P2O5;
  if (nutrient === 'K') return between(POTASH, percent / K_IN_K2O) * K_IN_K2O;
  return 0.5;
}

const P_IN_P2O5 = 0.43643;
const K_IN_K2O = 0.83015;

/** Guarantee in %, allowance in %. */
const NITROGEN: readonly (readonly [number, number])[] = [
  [4, 0.49],
  [10, 0.58],
  [20, 0.73],
  [32, 0.88],
];
const PHOSPHATE: readonly (readonly [number, number])[] = [
  [4, 0.67],
  [10, 0.69],
  [20, 0.72],
  [32, 0.76],
];
const POTASH: readonly (readonly [number, number])[] = [
  [4, 0.41],
  [10, 0.7],
  [20, 1.08],
  [32, 1.44],
];

function between(table: readonly (readonly [number, number])[], x: number): number {
  const [first] = table;
  // below the table's first line an allowance as large as the guarantee would say nothing: at most a quarter of it
  if (x <= first![0]) return Math.min(first![1], Math.max(0.05, x / 4));
  for (let i = 1; i < table.length; i += 1) {
    const [x0, y0] = table[i - 1]!;
    const [x1, y1] = table[i]!;
    if (x <= x1) return y0 + ((y1 - y0) * (x - x0)) / (x1 - x0);
  }
  return table.at(-1)![1];
}
