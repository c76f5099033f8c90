import { BOUNDS, mgCaCO3PerLitre, mgPerLitre } from '../units/index.js';
import { NUTRIENTS, type Nutrient } from '../chemistry/nutrients.js';
import type { Checked, Problem, Where } from '../problem.js';
import { evidenceOf, listCell, moneyCell, numberCell, requiredCell, uniqueIds } from './cells.js';
import type { Column } from './columns.js';
import { capped } from './limits.js';
import { type Named, sharedNames } from './names.js';
import { ELEMENT_SYNONYMS, SOURCE_COLUMNS } from './shared-columns.js';
import type { Water } from '../label/product.js';
import { type Row, readTable } from './table.js';

/** A kind of water that a bench can name. */
export interface CatalogWater extends Water, Named {
  where: Where;
}

/** The nutrients that a water analysis can state, mg/L of the element. */
export const WATER_NUTRIENTS: readonly Nutrient[] = NUTRIENTS.filter(
  (n) => n !== 'N' && n !== 'urea-N' && n !== 'other-N',
);

/** Alkalinity and elements past these are no source water (sea water has 19,000 mg/L Cl). */
export const MOST_IN_WATER = 2000;

/** Reads `waters.csv`: mg/L of each element, alkalinity in mg/L CaCO3, pH, price per litre. */
export function readWaters(text: string, file: string): Checked<CatalogWater[]> {
  const problems: Problem[] = [];
  const table = readTable(text, file, COLUMNS, problems);
  const waters = table.rows.map((row) => waterOf(row, problems));
  problems.push(...uniqueIds(waters), ...sharedNames(waters));
  return capped(waters, problems);
}

function waterOf(row: Row, problems: Problem[]): CatalogWater {
  const id = requiredCell(row, 'id', problems);
  const milligrams = WATER_NUTRIENTS.flatMap((nutrient) => {
    const value = numberCell(row, nutrient, { least: 0, most: MOST_IN_WATER, unit: 'mg/L' }, problems);
    return value === undefined ? [] : [[nutrient, mgPerLitre(value)] as const];
  });
  const pH = numberCell(row, 'pH', { least: 2, most: 12 }, problems);
  return {
    id,
    name: row.text('name') ?? id,
    synonyms: listCell(row, 'synonyms'),
    mgPerLitre: Object.fromEntries(milligrams),
    alkalinity: mgCaCO3PerLitre(
      numberCell(row, 'alkalinity', { least: 0, most: MOST_IN_WATER, unit: 'mg/L CaCO3' }, problems) ?? 0,
    ),
    ...(pH === undefined ? {} : { pH }),
    pricePerLitre: moneyCell(row, 'price_per_litre', BOUNDS.waterPrice, problems)?.amount ?? 0,
    source: row.text('source') ?? '',
    evidence: evidenceOf(row, problems),
    where: row.where(),
  };
}

const COLUMNS: readonly Column[] = [
  { name: 'id', required: true },
  { name: 'name' },
  { name: 'synonyms' },
  ...WATER_NUTRIENTS.map((name) => ({ name, synonyms: ELEMENT_SYNONYMS.get(name) ?? [], unit: 'mg/L' })),
  { name: 'alkalinity', unit: 'mg/L CaCO3' },
  { name: 'pH' },
  { name: 'price_per_litre', synonyms: ['price per liter', 'price'] },
  ...SOURCE_COLUMNS,
];
