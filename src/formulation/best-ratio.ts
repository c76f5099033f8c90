import { type Row, solve } from '../../solver/index.js';
import type { Ratio } from '../feed/ratio.js';
import { termsOf } from '../feed/terms.js';
import type { Formulated } from './formulate.js';

/**
 * The least (of a cap) or greatest (of a floor) ratio with every row kept but the rule's own: a linear-fractional program, made linear by
 * counting each amount per unit of the lower part (Charnes & Cooper 1962, Naval Res. Logist. Q. 9:181). Null where none exists.
 */
export async function bestRatio(
  { program, request }: Formulated,
  ruleRow: string,
  ratio: Ratio,
): Promise<number | null> {
  const sign = ratio.end === 'most' ? 1 : -1;
  const over = termsOf(
    request.shelf,
    request.waters,
    new Map([[ratio.over, 1]]),
    ratio.end === 'most' ? 'cap' : 'floor',
  );
  const under = termsOf(
    request.shelf,
    request.waters,
    new Map([[ratio.under, 1]]),
    ratio.end === 'most' ? 'floor' : 'cap',
  );
  const rows: Row[] = [{ id: 'unit', lower: 1, upper: 1, terms: under }];
  for (const row of program.rows) {
    if (row.id === ruleRow) continue;
    if (row.upper !== undefined) rows.push({ id: `${row.id} u`, upper: 0, terms: { ...row.terms, scale: -row.upper } });
    if (row.lower !== undefined) rows.push({ id: `${row.id} l`, lower: 0, terms: { ...row.terms, scale: -row.lower } });
  }
  for (const column of program.columns) {
    if (column.upper !== undefined)
      rows.push({ id: `${column.id} bound`, upper: 0, terms: { [column.id]: 1, scale: -column.upper } });
  }
  const columns = program.columns.map((c) => ({ id: c.id, cost: sign * (over[c.id] ?? 0) }));
  const verdict = await solve({ columns: [...columns, { id: 'scale', cost: 0 }], rows });
  return verdict.verdict === 'optimal' ? sign * verdict.objective : null;
}
