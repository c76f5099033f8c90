import { type Column, type Row, solve } from '../../../solver/index.js';
import type { Item, UpperRow } from '../../../solver/small/items.js';

/** What the integer program says. */
export interface ByProgram {
  /** Null where it proved that none holds, or where it did not end. */
  picks: number[] | null;
  cost: number;
  proved: boolean;
}

/** As long as anyone waits for an answer. */
const SECONDS = 1;
/** Levels per item at most, the cheapest; where that leaves any out, nothing is proved. */
const MOST_COLUMNS = 120;

/** The same choice as an integer program: a column per measure, one of them for each item. */
export async function byProgram(
  items: readonly Item[],
  rows: readonly UpperRow[],
  allowed: number,
): Promise<ByProgram> {
  const columns: Column[] = [];
  const programRows: Row[] = rows.map((row, r) => ({ id: `r${r}`, upper: row.upper + allowed * row.size, terms: {} }));
  let thinned = false;
  items.forEach((item, i) => {
    const one: Row = { id: `one${i}`, lower: 1, upper: 1, terms: {} };
    const order = item.costs.map((_, k) => k).sort((a, b) => item.costs[a]! - item.costs[b]!);
    if (order.length > MOST_COLUMNS) thinned = true;
    for (const k of order.slice(0, MOST_COLUMNS)) {
      const id = `m${i}.${k}`;
      columns.push({ id, cost: item.costs[k]!, upper: 1, integer: true });
      one.terms[id] = 1;
      rows.forEach((row, r) => {
        const term = row.terms[i]!;
        const part = term * (term > 0 ? item.highs[k]! : item.lows[k]!);
        if (part !== 0) programRows[r]!.terms[id] = part;
      });
    }
    programRows.push(one);
  });
  const verdict = await solve({ columns, rows: programRows }, { timeLimitSeconds: SECONDS, mostCases: 0 });
  const x = verdict.verdict === 'optimal' ? verdict.x : verdict.verdict === 'uncertified' ? verdict.best?.x : undefined;
  if (!x) {
    // that nothing fits is the word of its search; proving it by cases would take longer than trying all
    const nothing = verdict.verdict === 'infeasible' || ('claim' in verdict && verdict.claim === 'integer-infeasible');
    return { picks: null, cost: Number.POSITIVE_INFINITY, proved: nothing && !thinned };
  }
  const picks = items.map((item, i) => item.costs.findIndex((_, k) => (x[`m${i}.${k}`] ?? 0) > 0.5));
  const cost = picks.reduce((sum, k, i) => sum + items[i]!.costs[k]!, 0);
  return { picks, cost, proved: verdict.verdict === 'optimal' && !thinned };
}
