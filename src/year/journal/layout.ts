import { type Column, columnIndex, isColumn, matchColumns } from '../../catalog/columns.js';
import { delimiterOf } from '../../catalog/csv.js';
import { eachRecord, type RecordsAsked } from '../../catalog/csv-records.js';
import type { Problem } from '../../problem.js';

/** The columns of the journal, in the order in which a new one has them. */
export const COLUMN_NAMES = [
  'entry',
  'date',
  'kind',
  'feed',
  'litres',
  'items',
  'reading',
  'expected',
  'low',
  'high',
  'steps',
  'pen_factor',
  'temperature',
  'pH',
  'cost',
  'currency',
  'pot',
  'medium',
  'of',
  'waters',
  'strength',
  'sheet',
  'note',
  'end',
] as const;
export type ColumnName = (typeof COLUMN_NAMES)[number];

const COLUMNS: readonly Column[] = COLUMN_NAMES.map((name) =>
  name === 'entry' || name === 'date' || name === 'kind' || name === 'items' ? { name, required: true } : { name },
);
const INDEX = columnIndex(COLUMNS);

/** What a new journal begins with. */
export const HEAD = COLUMN_NAMES.join(',');

/** How a file has its cells: a spreadsheet may have saved it with other separators, or its columns in another order. */
export interface Layout {
  delimiter: RecordsAsked['delimiter'];
  /** The column of each place; null for one without a name. */
  columns: readonly (ColumnName | null)[];
  /** The place of each column. */
  places: ReadonlyMap<ColumnName, number>;
}

/** How the line that names the columns lays out a file; what is wrong with it is added to `problems`. */
export function layoutOf(head: string, file: string, line: number, problems: Problem[]): Layout {
  const plain = head.replace(/^\uFEFF/, '').replace(/\r$/, '');
  const delimiter = delimiterOf(plain, (name) => isColumn(name, INDEX));
  const cells = cellsOf(plain, delimiter).map((cell) => cell.trim());
  const matched = matchColumns({ line, cells }, [], INDEX, file, problems);
  const columns = matched.map((column) => (column?.name ?? null) as ColumnName | null);
  const places = new Map(columns.flatMap((name, i) => (name === null ? [] : [[name, i] as const])));
  return { delimiter, columns, places };
}

/** The cells of one line. */
export function cellsOf(line: string, delimiter: Layout['delimiter']): string[] {
  let found: readonly string[] = [];
  eachRecord(line, {
    delimiter,
    on: (cells) => {
      found = cells;
    },
    onFault: () => {},
  });
  return [...found];
}

/** The first line that is no comment, and where it stands; null where there is none. */
export function headOf(text: string): { head: string; line: number } | null {
  let line = 0;
  for (let at = 0; at < text.length; ) {
    line += 1;
    const end = text.indexOf('\n', at);
    const head = text.slice(at, end < 0 ? text.length : end).replace(/^\uFEFF/, '');
    if (head.trim() !== '' && !head.startsWith('#')) return { head, line };
    at = end < 0 ? text.length : end + 1;
  }
  return null;
}

/**
 * True where a last line without an end is whole: its last column repeats the number of its entry, which half a line does not; nor does it
 * name every column.
 * @param head the line that names the columns; empty where the line itself is the first of the file
 */
export function isWhole(line: string, head: string): boolean {
  if (head === '') return layoutOf(line, '', 1, []).columns.at(-1) === 'end' || line.startsWith('#');
  const { delimiter, places } = layoutOf(head, '', 1, []);
  const cells = cellsOf(line.replace(/\r$/, ''), delimiter);
  const [number, end] = [cells[places.get('entry') ?? -1]?.trim(), cells[places.get('end') ?? -1]?.trim()];
  return number !== undefined && number !== '' && number === end;
}
