import { columnIndex, isColumn } from './columns.js';
import { delimiterOf } from './csv.js';
import { SHELF_COLUMNS } from './shelf-columns.js';

/** One cell of a file: where it stands, quotes included, and what it says. */
interface Cell {
  start: number;
  end: number;
  text: string;
}

/**
 * The text of a shelf file with one cell changed, every other character kept: comments, quotes, blank lines, line ends. A column that is not
 * there yet is added at the end of every row. With semicolons between cells the number is written with a decimal comma.
 * @returns null where the row or the columns cannot be told for certain
 */
export function withCell(text: string, id: string, column: 'bulk_density', value: string): string | null {
  const index = columnIndex(SHELF_COLUMNS);
  const delimiter = delimiterOf(text.replace(/\r\n?/g, '\n'), (header) => isColumn(header, index));
  const written = delimiter === ';' ? value.replaceAll('.', ',') : value;
  const rows = rowsOf(text, delimiter);
  const [header, ...body] = rows ?? [];
  if (!header) return null;
  const named = (name: string): number[] =>
    header.flatMap((cell, i) => (headerName(cell.text) === headerName(name) ? [i] : []));
  const [ids, places] = [named('id'), named(column)];
  if (ids.length !== 1 || places.length > 1) return null;
  const found = body.filter((row) => row[ids[0]!]?.text === id);
  if (found.length !== 1) return null;
  const place = places[0];
  if (place !== undefined) {
    const cell = found[0]![place];
    return cell ? text.slice(0, cell.start) + written + text.slice(cell.end) : null;
  }
  const additions = [header, ...body].map((row) => ({
    at: row.at(-1)!.end,
    text: delimiter + (row === header ? column : row === found[0] ? written : ''),
  }));
  // from the end, so that earlier places stay right
  return additions.reduceRight((out, { at, text: more }) => out.slice(0, at) + more + out.slice(at), text);
}

/** A header without its unit, case and marks. */
export const headerName = (header: string): string =>
  header
    .replace(/\s*\([^)]*\)\s*$/, '')
    .toLowerCase()
    .replace(/[\s._-]+/g, '');

/** Rows with a cell that says something; comments and blank lines are passed over. Null where a quote never closes. */
export function rowsOf(text: string, delimiter: string): Cell[][] | null {
  const rows: Cell[][] = [];
  let at = 0;
  while (at < text.length) {
    if (text[at] === '#') {
      at = lineEnd(text, at);
    } else {
      const row: Cell[] = [];
      for (;;) {
        const cell = cellAt(text, at, delimiter);
        if (!cell) return null;
        row.push(cell);
        at = cell.end;
        if (text[at] !== delimiter) break;
        at += 1;
      }
      if (row.some((cell) => cell.text !== '')) rows.push(row);
    }
    if (text[at] === '\r') at += 1;
    if (text[at] === '\n') at += 1;
  }
  return rows;
}

function cellAt(text: string, start: number, delimiter: string): Cell | null {
  let at = start;
  if (text[at] !== '"') {
    while (at < text.length && text[at] !== delimiter && text[at] !== '\n' && text[at] !== '\r') at += 1;
    return { start, end: at, text: text.slice(start, at).trim() };
  }
  at += 1;
  for (;;) {
    const close = text.indexOf('"', at);
    if (close < 0) return null;
    if (text[close + 1] !== '"') {
      const end = close + 1;
      const next = text[end];
      // what stands after a closing quote belongs to no cell
      if (next !== undefined && next !== delimiter && next !== '\n' && next !== '\r') return null;
      return {
        start,
        end,
        text: text
          .slice(start + 1, close)
          .replaceAll('""', '"')
          .trim(),
      };
    }
    at = close + 2;
  }
}

function lineEnd(text: string, from: number): number {
  let at = from;
  while (at < text.length && text[at] !== '\n' && text[at] !== '\r') at += 1;
  return at;
}
