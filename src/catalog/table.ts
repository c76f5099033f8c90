import type { Problem, Where } from '../problem.js';
import { problem } from '../problem.js';
import { type Column, columnIndex, isColumn, matchColumns } from './columns.js';
import { type CsvRow, splitCsv } from './csv.js';
import { MOST } from '../units/index.js';

/** A CSV file read by column name. */
export interface Table {
  file: string;
  rows: Row[];
}

/** One row; a cell that is empty or has no column reads as undefined. */
export class Row {
  constructor(
    readonly file: string,
    readonly line: number,
    private readonly cells: ReadonlyMap<string, string>,
    /** True where cells are separated by `;`, so that a comma in a number is a decimal comma. */
    readonly decimalComma: boolean,
    private readonly columns: ReadonlySet<string>,
  ) {}

  /** False where the file has no such column at all. */
  has(column: string): boolean {
    return this.columns.has(column);
  }

  text(column: string): string | undefined {
    return this.cells.get(column);
  }

  where(column?: string): Where {
    return column === undefined
      ? { file: this.file, line: this.line }
      : { file: this.file, line: this.line, field: column };
  }
}

/** Reads a CSV file into rows by column name; everything wrong with its form is added to `problems`. */
export function readTable(text: string, file: string, columns: readonly Column[], problems: Problem[]): Table {
  const index = columnIndex(columns);
  const csv = splitCsv(text, file, (header) => isColumn(header, index), problems);
  if (!csv) return { file, rows: [] };
  const decimalComma = csv.delimiter === ';';
  const matched = matchColumns(csv.header, csv.rows, index, file, problems);
  if (csv.rows.length > MOST.products) {
    problems.push(
      problem('too-many-rows', { file }, `${csv.rows.length} rows`, `at most ${MOST.products}`, 'Split the file.'),
    );
    csv.rows.length = 0;
  } else if (csv.rows.length === 0 && problems.length === 0) {
    problems.push(
      problem(
        'csv-no-rows',
        { file, line: csv.header.line },
        'a header and no rows',
        'at least one row',
        'Add a row under the header.',
      ),
    );
  }
  problems.push(...longCells(csv.rows, file));
  const names = new Set(matched.flatMap((column) => (column ? [column.name] : [])));
  if (names.size === 0) return { file, rows: [] };
  const rows = csv.rows.map(({ line, cells }) => {
    const named = new Map<string, string>();
    matched.forEach((column, i) => {
      if (column && cells[i]) named.set(column.name, cells[i]);
    });
    return new Row(file, line, named, decimalComma, names);
  });
  return { file, rows };
}

/** Cells longer than any name or note; what is in them is not read. */
function longCells(rows: readonly CsvRow[], file: string): Problem[] {
  return rows.flatMap((row) =>
    row.cells.flatMap((cell, i) => {
      if (cell.length <= MOST.cell) return [];
      row.cells[i] = '';
      const found = `a cell of ${cell.length} characters`;
      return [problem('cell-too-long', { file, line: row.line }, found, `at most ${MOST.cell}`, 'Shorten it.')];
    }),
  );
}
