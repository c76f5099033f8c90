import { columnIndex, isColumn } from './columns.js';
import { delimiterOf } from './csv.js';
import { headerName, rowsOf } from './edit-cell.js';
import { SHELF_COLUMNS } from './shelf-columns.js';
import { cellOf } from './written-cell.js';

/** One row of a shelf as it is written. */
export interface WrittenProduct {
  id: string;
  /** Counted from 1. */
  line: number;
  /** What stands under each known column, by the column's own name. */
  cells: ReadonlyMap<string, string>;
}

/** The rows of a shelf file as they are written, whatever is wrong with what they say; null where rows or columns cannot be told. */
export function writtenProducts(text: string): WrittenProduct[] | null {
  const table = tableOf(text);
  if (!table) return null;
  return table.body.map((row) => ({
    id: row[table.idAt]?.text ?? '',
    line: text.slice(0, row[0]!.start).split('\n').length,
    cells: new Map(table.names.flatMap((name, i) => (name === undefined ? [] : [[name, row[i]?.text ?? ''] as const]))),
  }));
}

/** The text of a shelf file with one cell of a product changed, every other character kept; a column that is not there yet is added. */
export function withProductCell(text: string, id: string, column: string, value: string): string | null {
  const table = tableOf(text);
  const row = table && rowOf(table, id);
  if (!table || !row) return null;
  const { names, delimiter, header, body } = table;
  const written = cellOf(delimiter === ';' ? value.replace(/^(\d+)\.(\d+)/, '$1,$2') : value, delimiter);
  const at = names.indexOf(column);
  if (at >= 0) {
    const cell = row[at];
    if (cell) return text.slice(0, cell.start) + written + text.slice(cell.end);
    // a row that ends early says nothing in its last columns
    const end = row.at(-1)!.end;
    return text.slice(0, end) + delimiter.repeat(at - row.length + 1) + written + text.slice(end);
  }
  return [header, ...body]
    .map((one) => ({ at: one.at(-1)!.end, text: delimiter + (one === header ? column : one === row ? written : '') }))
    .reduceRight((out, { at: place, text: more }) => out.slice(0, place) + more + out.slice(place), text);
}

/** The text of a shelf file without one product, every other character kept. */
export function withoutProduct(text: string, id: string): string | null {
  const table = tableOf(text);
  const row = table && rowOf(table, id);
  if (!row) return null;
  const end = row.at(-1)!.end;
  const stop = /^\r?\n|^\r/.exec(text.slice(end))?.[0].length ?? 0;
  return text.slice(0, row[0]!.start) + text.slice(end + stop);
}

type Table = NonNullable<ReturnType<typeof tableOf>>;

/** The one row of that id. */
function rowOf({ body, idAt }: Table, id: string): Table['body'][number] | null {
  const found = body.filter((row) => row[idAt]?.text === id);
  return found.length === 1 ? found[0]! : null;
}

function tableOf(text: string) {
  const index = columnIndex(SHELF_COLUMNS);
  const delimiter = delimiterOf(text.replace(/\r\n?/g, '\n'), (header) => isColumn(header, index));
  const [header, ...body] = rowsOf(text, delimiter) ?? [];
  if (!header) return null;
  const names = header.map((cell) => index.get(headerName(cell.text))?.name);
  const idAt = names.indexOf('id');
  return idAt < 0 ? null : { delimiter, header, body, names, idAt };
}
