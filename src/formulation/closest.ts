import { type Column, type LinearProgram, type Row, solve } from '../../solver/index.js';
import type { Stage } from '../feed/proof.js';
import { aimsOf } from '../feed/near.js';
import { termsOf } from '../feed/terms.js';
import type { Formulated } from './formulate.js';

/**
 * A later stage may give back this much of what an earlier one won (relative miss, so 1e-7 is 0.00001 %): ten times
 * tighter than the certificate's own 1e-6, wide enough that rounding does not empty the next stage.
 */
const GIVE_BACK = 1e-7;

/**
 * Closest feed: first the least possible largest relative miss from the aims, then the least sum of misses, then the least
 * cost. Misses are counted on what labels state. A stage that is not proved is the last.
 */
export async function closestStages({ request, program: base }: Formulated): Promise<Stage[]> {
  const aims = aimsOf(request.programme);
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
  const run = async (goal: Stage['goal'], program: LinearProgram): Promise<number | null> => {
    const verdict = await solve(program, { dualFirst: true });
    stages.push({ goal, verdict });
    return verdict.verdict === 'optimal' ? verdict.objective : null;
  };

  const largest = await run('largest miss', {
    columns: [...free, ...missColumns, { id: 'worst', cost: 1 }],
    rows,
  });
  if (largest === null) return stages;
  const worst: Column = { id: 'worst', cost: 0, upper: largest + GIVE_BACK };
  const total = await run('sum of misses', {
    columns: [...free, ...missColumns.map((c) => ({ ...c, cost: 1 })), worst],
    rows,
  });
  if (total === null) return stages;
  const sum: Row = {
    id: 'sum',
    upper: total + GIVE_BACK * Math.max(1, total),
    terms: Object.fromEntries(missColumns.map((c) => [c.id, 1])),
  };
  await run('cost', { columns: [...base.columns, ...missColumns, worst], rows: [...rows, sum] });
  return stages;
}

/** The first goal alone. */
export async function leastMiss({ request, program }: Formulated): Promise<Stage> {
  const rows: Row[] = [...program.rows];
  for (const [nutrient, aim] of aimsOf(request.programme)) {
    const terms = termsOf(request.shelf, request.waters, new Map([[nutrient, 1]]), 'stated');
    rows.push({ id: `over:${nutrient}`, upper: aim, terms: { ...terms, worst: -aim } });
    rows.push({ id: `under:${nutrient}`, lower: aim, terms: { ...terms, worst: aim } });
  }
  const columns = [...program.columns.map((c) => ({ ...c, cost: 0 })), { id: 'worst', cost: 1 }];
  return { goal: 'largest miss', verdict: await solve({ columns, rows }, { dualFirst: true }) };
}
