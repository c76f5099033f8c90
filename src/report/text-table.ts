import type { Table } from './sheet.js';
import { padLeft, padRight, plainText, widthOf, wrap } from './wrap.js';

const GAP = 2;
const INDENT = 2;
/** No column is squeezed below this. */
const NARROWEST = 10;

/**
 * A table with its columns aligned. Where it is too wide, the widest text column wraps; where that is not enough, it is cut
 * into tables one below the other, each led by the first column.
 */
export function tableLines(table: Table, columns: number): string[] {
  return parts(table, columns).flatMap((part, i) => [...(i > 0 ? [''] : []), ...onePart(part, columns)]);
}

function parts(table: Table, columns: number): Table[] {
  const width = (i: number): number => {
    const cells = [table.columns[i]!.head, ...table.rows.map((row) => row[i] ?? ''), table.total?.[i] ?? ''];
    const natural = Math.max(...cells.map((cell) => widthOf(plainText(cell))));
    return GAP + (table.columns[i]!.align === 'left' ? Math.min(natural, NARROWEST) : natural);
  };
  const groups: number[][] = [[0]];
  // room is reckoned with the first column whole: it names the rows
  const first =
    INDENT +
    Math.max(
      ...[table.columns[0]!.head, ...table.rows.map((row) => row[0] ?? '')].map((cell) => widthOf(plainText(cell))),
    );
  const least = INDENT + Math.min(first - INDENT, NARROWEST);
  const all = table.columns.slice(1).reduce((sum, _, i) => sum + width(i + 1), least);
  if (all <= columns) return [table];
  let used = first;
  for (let i = 1; i < table.columns.length; i += 1) {
    if (used + width(i) > columns && groups.at(-1)!.length > 1) {
      groups.push([0]);
      used = first;
    }
    groups.at(-1)!.push(i);
    used += width(i);
  }
  const pick = <T>(cells: readonly T[], group: readonly number[]): T[] => group.map((i) => cells[i]!);
  return groups.map((group) => ({
    kind: 'table',
    columns: pick(table.columns, group),
    rows: table.rows.map((row) => pick(row, group)),
    ...(table.total ? { total: pick(table.total, group) } : {}),
  }));
}

function onePart(table: Table, columns: number): string[] {
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
