import { type Column, type LinearProgram, type Optimal, type Row, solve, type Verdict } from '../../solver/index.js';
import type { Nutrient } from '../chemistry/nutrients.js';
import type { Formulated } from './formulate.js';
import type { FeedRequest } from '../feed/request.js';
import { termsOf } from '../feed/terms.js';

/** One proved stage of the search for the closest feed. */
export interface Stage {
  goal: string;
  verdict: Optimal;
}

/** What the staged search ends with: every stage proved, or the verdict that stopped it. */
export type StagedVerdict = { verdict: 'optimal'; stages: Stage[]; last: Optimal } | Exclude<Verdict, Optimal>;

/**
 * A later stage may give back this much of what an earlier one won (relative miss, so 1e-7 is 0.00001 %): ten times
 * tighter than the certificate's own 1e-6, wide enough that rounding does not empty the next stage.
 */
const GIVE_BACK = 1e-7;

/**
 * Closest feed: first the least possible largest relative miss from the aims, then the least sum of misses, then the least
 * cost. Misses are counted on what labels state.
 */
export async function solveClosest(formulated: Formulated, request: FeedRequest): Promise<StagedVerdict> {
  const aims = aimsOf(request);
  const base = formulated.program;
  const missColumns: Column[] = aims.map(([n]) => ({ id: `miss:${n}`, cost: 0 }));
  const rows: Row[] = [...base.rows];
  for (const [nutrient, aim] of aims) {
    const terms = termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), 'stated');
    rows.push({ id: `over:${nutrient}`, upper: aim, terms: { ...terms, [`miss:${nutrient}`]: -aim } });
    rows.push({ id: `under:${nutrient}`, lower: aim, terms: { ...terms, [`miss:${nutrient}`]: aim } });
    rows.push({ id: `worst:${nutrient}`, lower: 0, terms: { worst: 1, [`miss:${nutrient}`]: -1 } });
  }
  const free = base.columns.map((c) => ({ ...c, cost: 0 }));
  const stages: Stage[] = [];

  const run = async (goal: string, program: LinearProgram): Promise<Optimal | Exclude<Verdict, Optimal>> => {
    const verdict = await solve(program);
    if (verdict.verdict === 'optimal') stages.push({ goal, verdict });
    return verdict;
  };

  const first = await run('least largest miss', { columns: [...free, ...missColumns, { id: 'worst', cost: 1 }], rows });
  if (first.verdict !== 'optimal') return first;
  const worst: Column = { id: 'worst', cost: 0, upper: first.objective + GIVE_BACK };
  const second = await run('least sum of misses', {
    columns: [...free, ...missColumns.map((c) => ({ ...c, cost: 1 })), worst],
    rows,
  });
  if (second.verdict !== 'optimal') return second;
  const sum: Row = {
    id: 'sum',
    upper: second.objective + GIVE_BACK * Math.max(1, second.objective),
    terms: Object.fromEntries(missColumns.map((c) => [c.id, 1])),
  };
  const third = await run('least cost', { columns: [...base.columns, ...missColumns, worst], rows: [...rows, sum] });
  if (third.verdict !== 'optimal') return third;
  return { verdict: 'optimal', stages, last: third };
}

/** Nutrients with a positive aim. */
export function aimsOf(request: Pick<FeedRequest, 'programme'>): [Nutrient, number][] {
  return (Object.entries(request.programme.bands) as [Nutrient, { aim?: number }][]).flatMap(([n, band]) =>
    band.aim !== undefined && band.aim > 0 ? [[n, band.aim] as [Nutrient, number]] : [],
  );
}
