/** Columns that a guaranteed analysis may fill, in the order of a label; all in %. */
export const ANALYSIS_COLUMNS = [
  'N',
  'NO3-N',
  'NH4-N',
  'urea-N',
  'other-N',
  'P2O5',
  'P',
  'K2O',
  'K',
  'CaO',
  'Ca',
  'MgO',
  'Mg',
  'SO3',
  'S',
  'Na2O',
  'Na',
  'Cl',
  'SiO2',
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

export type AnalysisColumn = (typeof ANALYSIS_COLUMNS)[number];

/** What a label says. A column that is absent or null is unknown; 0 is zero. */
export interface Analysis {
  form: 'powder' | 'liquid';
  /** % by mass (default), or g per 100 mL for some liquids. */
  basis?: 'w/w' | 'w/v';
  percent: Partial<Record<AnalysisColumn, number | null>>;
  /** Formula of a pure salt (or acid): settles everything. */
  formula?: string;
  /** % of the formula in the product; the rest is taken as inert. 100 if absent. */
  purity?: number;
  /** g/mL; needed for a liquid stated w/w. */
  density?: number;
  derivedFrom?: readonly string[];
}
