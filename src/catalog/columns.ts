import { nearest, type Problem, problem, type Where } from '../problem.js';
import { type CsvRow, shorten } from './csv.js';
import { MOST_COLUMNS } from './limits.js';

/** A column that a file may have. */
export interface Column {
  name: string;
  synonyms?: readonly string[];
  /** What may stand in brackets after the header: `K2O (%)`, `density (g/mL)`. */
  unit?: string;
  required?: boolean;
}

/** Column lookup by header, blind to case, spaces, dots, dashes and underscores. */
export type ColumnIndex = ReadonlyMap<string, Column>;

export function columnIndex(columns: readonly Column[]): ColumnIndex {
  return new Map(columns.flatMap((c) => [c.name, ...(c.synonyms ?? [])].map((n): [string, Column] => [bare(n), c])));
}

/** True for a header that names a column, with or without its unit. */
export const isColumn = (header: string, index: ColumnIndex): boolean => index.has(bare(splitUnit(header).name));

/**
 * The column under each header, null where there is none. Unknown, misspelt, repeated and missing columns and wrong units are
 * Problems.
 */
export function matchColumns(
  header: CsvRow,
  rows: readonly CsvRow[],
  index: ColumnIndex,
  file: string,
  problems: Problem[],
): (Column | null)[] {
  const place = { file, line: header.line };
  if (header.cells.length > MOST_COLUMNS) {
    problems.push(
      problem(
        'too-many-columns',
        place,
        `${header.cells.length} columns`,
        `at most ${MOST_COLUMNS}`,
        'Check that this is the right file.',
      ),
    );
    return header.cells.map(() => null);
  }
  if (!header.cells.some((cell) => isColumn(cell, index))) {
    problems.push(noHeader(header, index, file));
    return header.cells.map(() => null);
  }
  const seen = new Map<Column, string>();
  const matched = header.cells.map((cell, i) => {
    const { name, unit } = splitUnit(cell);
    const column = index.get(bare(name)) ?? null;
    const at = { ...place, field: cell };
    if (!column) {
      if (cell !== '' || rows.some((row) => row.cells[i]))
        problems.push(unknownColumn(cell, i, index, file, header.line));
      return null;
    }
    const first = seen.get(column);
    if (first !== undefined) {
      problems.push(repeatedColumn(cell, first, column, at));
      return null;
    }
    seen.set(column, cell);
    if (unit !== '' && bareUnit(unit) !== bareUnit(column.unit ?? '')) problems.push(wrongUnit(unit, column, at));
    return column;
  });
  for (const column of new Set(index.values()))
    if (column.required && !seen.has(column)) problems.push(missingColumn(column, place));
  return matched;
}

function repeatedColumn(cell: string, first: string, column: Column, where: Where): Problem {
  return problem(
    'column-twice',
    where,
    `${shorten(cell)} beside ${shorten(first)}`,
    `one column for ${column.name}`,
    'Keep the one you mean.',
  );
}

function wrongUnit(unit: string, column: Column, where: Where): Problem {
  return problem(
    'column-unit',
    where,
    `the unit "${unit}"`,
    column.unit ? `${column.name} in ${column.unit}` : 'no unit in this header',
    column.unit ? `Convert the numbers to ${column.unit}.` : `Write the header as ${column.name}.`,
  );
}

function missingColumn(column: Column, where: Where): Problem {
  return problem(
    'column-missing',
    where,
    `no column ${column.name}`,
    `a column ${column.name}`,
    `Add ${column.name} to the first line and fill it in.`,
  );
}

function unknownColumn(cell: string, i: number, index: ColumnIndex, file: string, line: number): Problem {
  if (cell === '') {
    return problem(
      'column-unnamed',
      { file, line },
      `column ${i + 1} without a name`,
      'a name over every column with values',
      'Name it, or take it out.',
    );
  }
  return problem(
    'column-unknown',
    { file, line, field: cell.slice(0, 40) },
    `column ${shorten(cell)}`,
    'a column this file can have',
    guess(cell, index),
  );
}

function guess(cell: string, index: ColumnIndex): string {
  const ion = ionHint(cell, (name) => index.has(bare(name)));
  if (ion !== null) return ion;
  const names = [...new Set([...index.values()].map((c) => c.name))];
  const guesses = cell.length <= 40 ? near(cell, index) : [];
  return guesses.length > 0
    ? `Did you mean ${guesses.join(' or ')}? Otherwise put it in notes.`
    : `Known: ${names.join(', ')}. Put anything else in notes.`;
}

/** How to turn an ion of a water report into the element we ask for; null for any other name. */
export function ionHint(name: string, isKnown: (column: string) => boolean): string | null {
  const ion = ION_HEADERS.get(bare(splitUnit(name).name));
  return ion !== undefined && isKnown(ion.split(' ')[0]!) ? `Write it as ${ion}.` : null;
}

/** Ions as water reports state them, and the column with the factor that makes its element of them. */
const ION_HEADERS: ReadonlyMap<string, string> = new Map([
  ['no3', 'NO3-N (nitrate × 0.226)'],
  ['nh4', 'NH4-N (ammonium × 0.776)'],
  ['so4', 'S (sulfate × 0.334)'],
  ['po4', 'P (phosphate × 0.326)'],
  ['hco3', 'alkalinity (mg/L CaCO3 = bicarbonate × 0.820)'],
]);

function near(cell: string, index: ColumnIndex): string[] {
  const bareGuesses = nearest(bare(splitUnit(cell).name), index.keys());
  return [...new Set(bareGuesses.map((key) => index.get(key)!.name))];
}

function noHeader(header: CsvRow, index: ColumnIndex, file: string): Problem {
  const wanted = [...new Set(index.values())].slice(0, 4).map((c) => c.name);
  const single = header.cells.length === 1;
  return problem(
    'csv-no-header',
    { file, line: header.line },
    shorten(header.cells.join(',')),
    `a header line such as ${wanted.join(',')},…`,
    single ? 'Put commas between the columns.' : 'Let the first line name the columns.',
  );
}

/** No header with its unit is longer; brackets without end are not searched for one. */
const LONGEST_HEADER = 200;

function splitUnit(header: string): { name: string; unit: string } {
  if (header.length > LONGEST_HEADER) return { name: header, unit: '' };
  const match = /^(.*?)\s*(?:[([]([^)\]]*)[)\]]|(%))$/.exec(header.trim());
  return match ? { name: match[1]!, unit: match[2] ?? match[3]! } : { name: header, unit: '' };
}

const bare = (header: string): string => header.toLowerCase().replace(/[\s._-]+/g, '');
const bareUnit = (unit: string): string => unit.toLowerCase().replace(/\s+/g, '').replace('percent', '%');
