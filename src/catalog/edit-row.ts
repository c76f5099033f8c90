import { cellOf } from './written-cell.js';
import { columnIndex, isColumn } from './columns.js';
import { delimiterOf } from './csv.js';
import { headerName, rowsOf } from './edit-cell.js';
import { SHELF_COLUMNS } from './shelf-columns.js';

/**
 * The text of a shelf file with one row more at its end, every other character kept. Columns that are not there yet are added at the end of
 * every row. With semicolons between cells numbers are written with a decimal comma.
 * @param cells by the names of the columns; empty ones are left empty
 * @returns null where the rows or columns cannot be told for certain
 */
export function withRow(text: string, cells: ReadonlyMap<string, string>): string | null {
  const index = columnIndex(SHELF_COLUMNS);
  const delimiter = delimiterOf(text.replace(/\r\n?/g, '\n'), (header) => isColumn(header, index));
  const rows = rowsOf(text, delimiter);
  const header = rows?.[0];
  if (!rows || !header) return null;
  const known = header.map((cell) => index.get(headerName(cell.text))?.name);
  const filled = [...cells].filter(([, value]) => value !== '');
  const more = filled.map(([column]) => column).filter((column) => !known.includes(column));
  const written = (column: string | undefined): string => {
    const value = (column === undefined ? undefined : cells.get(column)) ?? '';
    return cellOf(
      delimiter === ';' ? value.replace(/^(\d+)\.(\d+)/, '$1,$2').replace(/([-±] )(\d+)\.(\d+)$/, '$1$2,$3') : value,
      delimiter,
    );
  };
  const widened = rows
    .map((row) => ({
      at: row.at(-1)!.end,
      text: more.map((column) => delimiter + (row === header ? column : '')).join(''),
    }))
    .reduceRight((out, { at, text: added }) => out.slice(0, at) + added + out.slice(at), text);
  const ends = text.includes('\r\n') ? '\r\n' : text.includes('\r') && !text.includes('\n') ? '\r' : '\n';
  const whole = /[\r\n]$/.test(widened) ? widened : widened + ends;
  return `${whole}${[...known, ...more].map(written).join(delimiter)}${ends}`;
}
