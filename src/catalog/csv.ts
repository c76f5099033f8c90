import { CsvError, type CsvErrorCode, parse } from 'csv-parse/browser/esm/sync';
import { type Problem, problem, warning } from '../problem.js';
import { cellText } from '../units/index.js';
import { refusedText } from './limits.js';

/** One line of cells, trimmed. `line` is where the row begins, counted from 1. */
export interface CsvRow {
  line: number;
  cells: string[];
}

/** A file split into header and rows; comments, blank lines and lines of empty cells are gone. */
export interface CsvText {
  header: CsvRow;
  rows: CsvRow[];
  delimiter: ',' | ';' | '\t';
}

/**
 * Splits CSV text. Byte-order mark, CRLF and `#` comment lines are understood; `;` or tabs are accepted, with a warning, when
 * the header makes sense with them only. Every ragged row and stray quote is a Problem with its line.
 * @param isKnown whether a header is one of the file's columns
 * @returns null where nothing can be read; `problems` then says why
 */
export function splitCsv(
  text: string,
  file: string,
  isKnown: (header: string) => boolean,
  problems: Problem[],
): CsvText | null {
  const refused = refusedText(text, file);
  if (refused) {
    problems.push(refused);
    return null;
  }
  const plain = text.replace(/^\uFEFF/, '').replace(/\r\n?/g, '\n');
  const delimiter = delimiterOf(plain, isKnown);
  const rows = parseRows(plain, delimiter, file, problems);
  const [header, ...rest] = rows;
  if (!header) {
    if (problems.length === 0) problems.push(emptyFile(file));
    return null;
  }
  if (delimiter !== ',') problems.push(otherDelimiter(file, header.line, delimiter));
  while (
    header.cells.length > 1 &&
    header.cells.at(-1) === '' &&
    rest.every((r) => !r.cells[header.cells.length - 1])
  ) {
    header.cells.pop();
  }
  return { header, rows: rest.filter((row) => isEven(row, header.cells.length, delimiter, file, problems)), delimiter };
}

/** The delimiter under which the header has the most known columns; a comma where that settles nothing. */
export function delimiterOf(text: string, isKnown: (header: string) => boolean): CsvText['delimiter'] {
  const header = text.split('\n', 1000).find((line) => line.trim() !== '' && !line.startsWith('#')) ?? '';
  const known = (mark: string): number =>
    header
      .slice(0, 20_000)
      .split(mark)
      .filter((cell) => isKnown(cell.replaceAll('"', ''))).length;
  const best = ([',', ';', '\t'] as const).map((mark) => ({ mark, count: known(mark) }));
  return best.reduce((a, b) => (b.count > a.count ? b : a)).mark;
}

/** After a stray quote the reading goes on at the next line, so that all of them are told at once. */
function parseRows(text: string, delimiter: string, file: string, problems: Problem[]): CsvRow[] {
  const rows: CsvRow[] = [];
  let rest = text;
  let base = 0;
  for (let strays = 0; strays < MOST_STRAY_QUOTES; strays += 1) {
    let last = 0;
    try {
      parse(rest, {
        delimiter,
        record_delimiter: '\n',
        comment: '#',
        comment_no_infix: true,
        skip_empty_lines: true,
        relax_column_count: true,
        on_record: (record: string[], { lines }: { lines: number }) => {
          last = lines;
          const cells = record.map((cell) => cellText(cell.trim()));
          if (cells.some((cell) => cell !== '')) rows.push({ line: base + lines - newlines(record), cells });
          return null;
        },
      });
      return rows;
    } catch (fault) {
      if (!(fault instanceof CsvError)) throw fault;
      const lines = rest.split('\n');
      const bad = lines.findIndex((line, i) => i >= last && line !== '' && !line.startsWith('#'));
      problems.push(strayQuote(fault.code, file, base + bad + 1, lines[bad] ?? ''));
      rest = lines.slice(bad + 1).join('\n');
      base += bad + 1;
    }
  }
  return rows;
}

const MOST_STRAY_QUOTES = 10;

const newlines = (record: readonly string[]): number =>
  record.reduce((sum, cell) => sum + (cell.includes('\n') ? cell.split('\n').length - 1 : 0), 0);

/** True for a row as wide as the header (empty cells past its end are let go). */
function isEven(row: CsvRow, width: number, delimiter: string, file: string, problems: Problem[]): boolean {
  while (row.cells.length > width && row.cells.at(-1) === '') row.cells.pop();
  if (row.cells.length === width) return true;
  const many = row.cells.length > width;
  const fix =
    many && delimiter === ','
      ? 'Put quotes around a cell that holds a comma, and write decimals with a point (12.5).'
      : many
        ? 'Put quotes around a cell that holds the separator.'
        : 'Keep a separator for every empty cell.';
  problems.push(
    problem(
      'csv-ragged',
      { file, line: row.line },
      `${count(row.cells.length, 'cell')}`,
      `${count(width, 'cell')}, as in the header`,
      fix,
    ),
  );
  return false;
}

function strayQuote(code: CsvErrorCode, file: string, line: number, text: string): Problem {
  const found = code === 'CSV_QUOTE_NOT_CLOSED' ? 'a quote that never closes' : 'a stray quote';
  return problem(
    'csv-quote',
    { file, line },
    `${found} in this line: ${clip(text)}`,
    'quotes around whole cells, in pairs',
    'Close the quote; write a quote inside a quoted cell twice ("").',
  );
}

function otherDelimiter(file: string, line: number, delimiter: ';' | '\t'): Problem {
  const name = delimiter === ';' ? 'semicolons' : 'tabs';
  return warning(
    'csv-delimiter',
    { file, line },
    `${name} between the cells`,
    'commas',
    `Read with ${name}; nothing to do if the columns are right.`,
  );
}

function emptyFile(file: string): Problem {
  return problem(
    'csv-empty',
    { file },
    'an empty file',
    'a header line and rows under it',
    'Begin with a line that names the columns.',
  );
}

const count = (n: number, noun: string): string => `${n} ${noun}${n === 1 ? '' : 's'}`;

/** A piece of the file in quotes, short enough to print. */
export const shorten = (text: string): string => `"${clip(text)}"`;

function clip(text: string): string {
  const clean = text.trim();
  return clean.length > 60 ? `${clean.slice(0, 57)}…` : clean;
}
