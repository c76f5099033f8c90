import { type Checked, type Problem, problem } from '../problem.js';
import type { Evidence } from '../label/product.js';
import { evidenceOf, numberCell, requiredCell } from './cells.js';
import type { Column } from './columns.js';
import { SOURCE_COLUMNS } from './shared-columns.js';
import { readTable } from './table.js';

/** An end that a can is judged by besides nutrients and EC: alkalinity in mg/L CaCO3, pH of a chelate, mg/L of nitrogen as ammonia, hours that it keeps. */
export interface CanLimit {
  quantity: (typeof QUANTITIES)[number];
  /** A medium, the agent of a chelate, what ends its keeping, or `*`. */
  of: string;
  least: number | null;
  aim: number | null;
  most: number;
  source: string;
  evidence: Evidence;
  notes: string;
}

export const QUANTITIES = ['alkalinity', 'chelate', 'ammonia', 'keeping'] as const;

/** Reads `can-limits.csv`. */
export function readCanLimits(text: string, file: string): Checked<CanLimit[]> {
  const problems: Problem[] = [];
  const limits = readTable(text, file, COLUMNS, problems).rows.flatMap((row): CanLimit[] => {
    const asked = requiredCell(row, 'quantity', problems);
    const quantity = QUANTITIES.find((name) => name === asked);
    const number = (name: string): number | null => numberCell(row, name, { least: 0, most: 2000 }, problems) ?? null;
    const of = requiredCell(row, 'of', problems);
    requiredCell(row, 'most', problems);
    const most = number('most');
    if (quantity === undefined)
      problems.push(
        problem('unknown-quantity', row.where('quantity'), `"${asked}"`, QUANTITIES.join(', '), 'Name one of these.'),
      );
    if (quantity === undefined || most === null) return [];
    const told = {
      source: row.text('source') ?? '',
      evidence: evidenceOf(row, problems),
      notes: row.text('notes') ?? '',
    };
    return [{ quantity, of, least: number('least'), aim: number('aim'), most, ...told }];
  });
  return problems.length > 0 ? { ok: false, problems } : { ok: true, value: limits, warnings: [] };
}

const COLUMNS: readonly Column[] = [
  { name: 'quantity', required: true },
  { name: 'of', required: true },
  { name: 'least' },
  { name: 'aim' },
  { name: 'most', required: true },
  ...SOURCE_COLUMNS,
];
