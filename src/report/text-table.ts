import type { Table } from './sheet.js';
import { padLeft, padRight, plainText, widthOf, wrap } from './wrap.js';

const GAP = 2;
const INDENT = 2;
/** No column is squeezed below this. */
const NARROWEST = 10;

/** A table with its columns aligned; where it is too wide, the widest text column wraps. */
export function tableLines(table: Table, columns: number): string[] {
  const heads = table.columns.map((column) => plainText(column.head));
  const rows = table.rows.map((row) => heads.map((_, i) => plainText(row[i] ?? '')));
  const total = table.total ? heads.map((_, i) => plainText(table.total?.[i] ?? '')) : null;
  const everything = [heads, ...rows, ...(total ? [total] : [])];
  const widths = squeeze(
    heads.map((_, i) => Math.max(...everything.map((row) => widthOf(row[i]!)))),
    columns - INDENT - GAP * (heads.length - 1),
    table.columns.map((column) => column.align === 'left'),
  );
  const draw = (row: readonly string[]): string[] => {
    const cells = row.map((cell, i) => wrap(cell, widths[i]!));
    const depth = Math.max(...cells.map((cell) => cell.length));
    return Array.from({ length: depth }, (_, line) => {
      const parts = cells.map((cell, i) => {
        const pad = table.columns[i]!.align === 'right' ? padLeft : padRight;
        return pad(cell[line] ?? '', widths[i]!);
      });
      return ' '.repeat(INDENT) + parts.join(' '.repeat(GAP));
    });
  };
  const headed = heads.some((head) => head !== '') ? draw(heads) : [];
  return [...headed, ...rows.flatMap(draw), ...(total ? [rule(widths), ...draw(total)] : [])];
}

/** Takes room from the widest text column, a character at a time, until the row fits or nothing can give. */
function squeeze(natural: readonly number[], room: number, gives: readonly boolean[]): number[] {
  const widths = [...natural];
  const sum = (): number => widths.reduce((a, b) => a + b, 0);
  while (sum() > room) {
    let widest = -1;
    widths.forEach((width, i) => {
      if (gives[i] && width > NARROWEST && (widest < 0 || width > widths[widest]!)) widest = i;
    });
    if (widest < 0) break;
    widths[widest]! -= 1;
  }
  return widths;
}

function rule(widths: readonly number[]): string {
  return ' '.repeat(INDENT) + widths.map((width) => '-'.repeat(width)).join('-'.repeat(GAP));
}
