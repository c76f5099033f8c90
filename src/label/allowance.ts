import type { Nutrient, PerNutrient } from '../chemistry/nutrients.js';
import { elementPerOxide, OXIDES } from '../chemistry/oxides.js';
import type { Law } from './law.js';
import { isForm } from './sources.js';

/**
 * How far what is found may lie below and above a declared figure, % of the product. US: `allowance` and `primaryAllowance`, taken either
 * way. EU: Regulation (EU) 2019/1009, Annex III, part III, inorganic fertilisers PFC 1(C) (consolidated text): both ways and larger; for N,
 * phosphate and potash 1.9 points where all three are declared, 1.5 of two, a quarter and at most 2 of one; from half to twice of CaO,
 * MgO and SO3, at most 2 below and 4 above; half of a trace element, at most 1.
 * @param percent the figure, of the element
 * @param mains how many of N, P and K are declared
 */
export function tolerance(
  nutrient: Nutrient,
  percent: number,
  law: Law | undefined,
  mains: number,
): { under: number; over: number } {
  if (law !== 'eu') {
    const same = allowance(nutrient, percent) ?? primaryAllowance(nutrient, percent);
    return { under: same, over: same };
  }
  const oxide = AS_DECLARED.get(nutrient) ?? 1;
  const declared = percent / oxide;
  const [under, over] = european(nutrient, declared, mains);
  return { under: under * oxide, over: over * oxide };
}

/** How many of nitrogen, phosphate and potash a label declares. */
export const mainsDeclared = (content: PerNutrient<{ stated: number | null }>): number =>
  (['N', 'P', 'K'] as const).filter((n) => (content[n].stated ?? 0) > 0).length;

/** Points of the declared figure, an oxide where the EU declares one. */
function european(nutrient: Nutrient, declared: number, mains: number): [number, number] {
  const both = (points: number): [number, number] => [points, points];
  if (nutrient === 'N' || isForm(nutrient) || nutrient === 'P' || nutrient === 'K') {
    if (mains <= 1) return both(Math.min(2, declared / 4));
    // the regulation gives points alone: no more than a figure itself
    return [Math.min(mains === 2 ? 1.5 : 1.9, declared), mains === 2 ? 1.5 : 1.9];
  }
  if (nutrient === 'Ca' || nutrient === 'Mg' || nutrient === 'S')
    return [Math.min(2, declared / 2), Math.min(4, declared)];
  if (nutrient === 'Na') return [Math.min(0.9, declared / 4), Math.min(1.8, declared / 2)];
  return both(declared > 10 ? 1 : declared > 2 ? Math.min(1, declared / 2) : declared / 2);
}

/** Element per oxide in which the EU declares. */
const AS_DECLARED: ReadonlyMap<Nutrient, number> = new Map(
  [...OXIDES].flatMap(([oxide, nutrient]): [Nutrient, number][] =>
    ['P', 'K', 'Ca', 'Mg', 'S', 'Na'].includes(nutrient) ? [[nutrient, elementPerOxide(oxide)]] : [],
  ),
);

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
