import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import { elementPerOxide, OXIDES } from '../chemistry/oxides.js';
import { ANALYSIS_COLUMNS, type Analysis, type AnalysisColumn } from './analysis.js';
import { decimalsOf } from '../units/index.js';
import { powerOfTen } from '../units/elementary.js';

/**
 * One unit of the last digit in which each figure is printed, as % of the element. A label prints its main figures alike, and its trace elements
 * alike, so the finest of each group tells: 4.8-11.8-47 is printed in tenths, 20-20-20 in whole numbers. A printed zero, and trace
 * elements, are never taken coarser than a tenth.
 */
export function lastDigits({ percent }: Pick<Analysis, 'percent'>): Map<Nutrient, number> {
  const printed = ANALYSIS_COLUMNS.filter((column) => Number.isFinite(percent[column]));
  const finest = { main: 1, trace: TENTH };
  for (const column of printed) finest[groupOf(column)] = Math.min(finest[groupOf(column)], unitOf(percent[column]!));
  const digits = new Map<Nutrient, number>();
  for (const column of printed) {
    const unit = percent[column] === 0 ? Math.min(TENTH, finest[groupOf(column)]) : finest[groupOf(column)];
    const nutrient = OXIDES.get(column) ?? (column as Nutrient);
    // elements come after their oxides in the order of columns, and are what is used where both stand
    digits.set(nutrient, OXIDES.has(column) ? unit * elementPerOxide(column) : unit);
  }
  // A form that is not printed is the total less the printed ones, each of which may hide a unit of the last digit. Twice that, for
  // whoever uses this counts half a unit below a figure.
  const total = digits.get('N');
  const forms = NITROGEN_FORMS.filter((form) => digits.has(form)).length;
  for (const form of NITROGEN_FORMS) {
    if (total !== undefined && !digits.has(form)) digits.set(form, Math.max(1, 2 * forms) * total);
  }
  return digits;
}

const TENTH = 0.1;
const TRACES: ReadonlySet<AnalysisColumn> = new Set(['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni'] as const);
const groupOf = (column: AnalysisColumn): 'main' | 'trace' => (TRACES.has(column) ? 'trace' : 'main');

/** 4.8 → 0.1, 47 → 1, 0.00079 → 0.00001 */
const unitOf = (value: number): number => powerOfTen(-decimalsOf(value));
