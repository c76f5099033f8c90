import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import { NITROGEN_FORMS, type Nutrient } from '../chemistry/nutrients.js';
import type { Rule } from '../programme/rule.js';
import type { FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';

/** A homogeneous rule of two nutrients seen as a ratio: over : under ≤ bound (cap) or ≥ bound (floor). */
export interface Ratio {
  over: Nutrient;
  under: Nutrient;
  bound: number;
  side: 'cap' | 'floor';
  /** A form of nitrogen counted in total N: shown in percent. */
  isShare: boolean;
  name: string;
}

/** The ratio behind a rule, or null where it is not one. `NH4 <= 0 * N` counts as the share of NH4 in N. */
export function ratioOfRule(rule: Rule, side: 'cap' | 'floor'): Ratio | null {
  if ((side === 'cap' ? rule.upper : rule.lower) !== 0) return null;
  const terms = Object.entries(rule.terms) as [Nutrient, number][];
  const plus = terms.filter(([, w]) => w > 0);
  const minus = terms.filter(([, w]) => w < 0);
  if (plus.length !== 1 || minus.length > 1) return null;
  const [over, weight] = plus[0]!;
  const isForm = (NITROGEN_FORMS as readonly Nutrient[]).includes(over);
  const under = minus[0]?.[0] ?? (isForm ? 'N' : null);
  if (under === null) return null;
  const isShare = isForm && under === 'N';
  const short = (n: Nutrient): string => n.replace(/-N$/, '');
  return {
    over,
    under,
    bound: minus.length === 0 ? 0 : -minus[0]![1] / weight,
    side,
    isShare,
    name: isShare ? `${short(over)} share of N` : `${short(over)} : ${short(under)}`,
  };
}

/**
 * The least (cap) or greatest (floor) ratio with every row kept but the rule's own: a linear-fractional program, made linear by
 * counting each amount per unit of the lower part (Charnes & Cooper 1962, Naval Res. Logist. Q. 9:181). Null where none exists.
 */
export async function bestRatio(
  program: LinearProgram,
  ruleRow: string,
  ratio: Ratio,
  request: FeedRequest,
): Promise<number | null> {
  const sign = ratio.side === 'cap' ? 1 : -1;
  const over = termsOf(request.shelf, request.waters, new Map([[ratio.over, 1]]), ratio.side);
  const under = termsOf(
    request.shelf,
    request.waters,
    new Map([[ratio.under, 1]]),
    ratio.side === 'cap' ? 'floor' : 'cap',
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
