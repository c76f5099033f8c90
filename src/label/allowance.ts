import type { Nutrient } from '../chemistry/nutrients.js';

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
