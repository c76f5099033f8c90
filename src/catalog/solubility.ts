import { parseFormula } from '../chemistry/formula.js';
import type { Checked, Problem } from '../problem.js';
import { evidenceOf, numberCell, requiredCell, uniqueIds } from './cells.js';
import type { Column } from './columns.js';
import { capped } from './limits.js';
import type { Evidence } from '../label/product.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { type Row, readTable } from './table.js';

/** How much of a substance, counted without crystal water, 100 g of water hold. */
export interface Solubility {
  id: string;
  name: string;
  /** Without crystal water. */
  formula: string;
  /** g per 100 g of water at each of `SOLUBILITY_TEMPERATURES`. */
  grams: readonly number[];
  source: string;
  evidence: Evidence;
}

/** °C of the columns at_0 … at_30. */
export const SOLUBILITY_TEMPERATURES = [0, 10, 20, 30] as const;

/** Reads `solubility.csv`; all four temperatures must be filled in. */
export function readSolubility(text: string, file: string): Checked<Solubility[]> {
  const problems: Problem[] = [];
  const rows = readTable(text, file, COLUMNS, problems).rows.map((row) => ({
    ...solubilityOf(row, problems),
    where: row.where(),
  }));
  problems.push(...uniqueIds(rows));
  return capped(
    rows.map(({ where: _where, ...row }) => row),
    problems,
  );
}

function solubilityOf(row: Row, problems: Problem[]): Solubility {
  const id = requiredCell(row, 'id', problems);
  const formula = requiredCell(row, 'formula', problems);
  const read = formula === '' ? undefined : parseFormula(formula, row.where('formula'));
  if (read && !read.ok) problems.push(...read.problems);
  const grams = TEMPERATURE_COLUMNS.map((column) => {
    requiredCell(row, column, problems);
    return numberCell(row, column, GRAMS, problems) ?? 0;
  });
  return {
    id,
    name: row.text('name') ?? id,
    formula,
    grams,
    source: row.text('source') ?? '',
    evidence: evidenceOf(row, problems),
  };
}

const TEMPERATURE_COLUMNS = SOLUBILITY_TEMPERATURES.map((celsius) => `at_${celsius}`);
const GRAMS = { least: 0.01, most: 1000, unit: 'g/100 g' };

const COLUMNS: readonly Column[] = [
  { name: 'id', required: true },
  { name: 'name' },
  { name: 'formula', required: true },
  ...TEMPERATURE_COLUMNS.map((name) => ({ name, required: true })),
  ...SOURCE_COLUMNS,
];
