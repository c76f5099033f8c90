/** Everything a feed is judged by, in the order of a label. `N` is total nitrogen; its four forms follow it. */
export const NUTRIENTS = [
  'N',
  'NO3-N',
  'NH4-N',
  'urea-N',
  'other-N',
  'P',
  'K',
  'Ca',
  'Mg',
  'S',
  'Na',
  'Cl',
  'Si',
  'Fe',
  'Mn',
  'Zn',
  'Cu',
  'B',
  'Mo',
  'Co',
  'Ni',
] as const;

/** A nutrient name as used in files and JSON. */
export type Nutrient = (typeof NUTRIENTS)[number];

/** The four forms of nitrogen that a label can guarantee. */
export const NITROGEN_FORMS = ['NO3-N', 'NH4-N', 'urea-N', 'other-N'] as const satisfies readonly Nutrient[];

/** What a rule adds up: elements, mg/L, or the alkalinity of the can, mg/L as CaCO3. */
export type Measured = Nutrient | 'alkalinity';

/** Names that a rule may use, with what each stands for. */
export const RULE_NAMES: ReadonlyMap<string, Measured> = new Map<string, Measured>([
  ['NO3', 'NO3-N'],
  ['NH4', 'NH4-N'],
  ['urea', 'urea-N'],
  ...NUTRIENTS.filter((n) => !n.includes('-')).map((n): [string, Nutrient] => [n, n]),
  ['alkalinity', 'alkalinity'],
]);

/** A table with a value for every nutrient. */
export type PerNutrient<T> = Record<Nutrient, T>;

/** Fills a table from a function. */
export function perNutrient<T>(of: (nutrient: Nutrient) => T): PerNutrient<T> {
  const all: Partial<PerNutrient<T>> = {};
  for (const nutrient of NUTRIENTS) all[nutrient] = of(nutrient);
  return all as PerNutrient<T>;
}
