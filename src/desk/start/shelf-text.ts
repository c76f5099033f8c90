import { SHELF_COLUMNS } from '../../catalog/shelf-columns.js';
import { cellOf } from '../../catalog/written-cell.js';

/** Columns that every shelf has, filled or not: what the grower is to fill in. */
const ALWAYS = [
  'id',
  'name',
  'form',
  'basis',
  'density',
  'bulk_density',
  'derived_from',
  'on_hand',
  'pack',
  'price',
  'max_rate',
  'source',
  'evidence',
  'notes',
];

/** The text of a new shelf.csv, with a head of comments; the rows in their order, the columns in that of the table of columns. */
export function shelfText(rows: readonly ReadonlyMap<string, string>[]): string {
  const columns = SHELF_COLUMNS.map(({ name }) => name).filter(
    (name) => ALWAYS.includes(name) || rows.some((row) => (row.get(name) ?? '') !== ''),
  );
  return [
    ...HEAD,
    columns.join(','),
    ...rows.map((row) => columns.map((name) => cellOf(row.get(name) ?? '')).join(',')),
    '',
  ].join('\n');
}

const HEAD = [
  '# Your shelf: one product a row. An empty cell is unknown; 0 is zero. Amounts carry their unit: on_hand 350 g; pack 500 g; price 12.9.',
  '# Figures are % as printed (P2O5 and P are two columns); bulk_density is g/mL of the level powder: velamen meter --weigh finds it.',
];
