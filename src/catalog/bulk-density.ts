import type { Problem } from '../problem.js';
import { BOUNDS } from '../units/index.js';
import { rangedNumber } from './cells.js';
import type { Product } from '../label/product.js';
import type { Row } from './table.js';

/**
 * `0.95`, or with how far it may be off: `0.95 +/- 0.08` (also ±), within which nineteen of twenty fillings lie. That is what
 * `meter --weigh` and `--calibrate` write with `--save`.
 */
export function bulkDensityCell(
  row: Row,
  problems: Problem[],
): Pick<Product, 'bulkDensity' | 'bulkDensityOff'> | undefined {
  const text = row.text('bulk_density');
  if (text === undefined) return undefined;
  const [value = '', ...rest] = text.split(/\s*(?:±|\+\s*\/?\s*[-−–])\s*/);
  const read = (part: string, least: number): number | undefined =>
    rangedNumber(part, { ...BOUNDS.bulkDensity, least }, row.where('bulk_density'), row.decimalComma, problems);
  const bulkDensity = read(value, BOUNDS.bulkDensity.least);
  const bulkDensityOff = rest.length === 0 ? undefined : read(rest.join(' '), 0);
  if (bulkDensity === undefined) return undefined;
  return { bulkDensity, ...(bulkDensityOff === undefined ? {} : { bulkDensityOff }) };
}
