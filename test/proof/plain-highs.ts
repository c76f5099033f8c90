import loadHighs, { type Highs } from 'highs';
import type { LinearProgram } from '../../solver/index.js';
import type { Said } from './judge.js';

let loaded: Promise<Highs> | undefined;

/** HiGHS as it comes, by its arrays: its own scaling and tolerances, and its word taken. The proof's second judge. */
export async function plainHighs(program: LinearProgram, seconds = 3): Promise<Said> {
  try {
    loaded ??= loadHighs();
    return ask(await loaded, program, seconds);
  } catch {
    // after a trap its memory cannot be trusted
    loaded = undefined;
    return { verdict: 'uncertified' };
  }
}

function ask(highs: Highs, { columns, rows }: LinearProgram, seconds: number): Said {
  const position = new Map(columns.map(({ id }, j) => [id, j]));
  const terms = rows.map((row) => Object.entries(row.terms).filter(([, by]) => by !== 0));
  const starts = [0];
  for (const row of terms) starts.push(starts.at(-1)! + row.length);
  const model = highs.createModel({
    numCols: columns.length,
    numRows: rows.length,
    colCost: columns.map(({ cost }) => cost),
    colLower: columns.map(({ lower }) => lower ?? 0),
    colUpper: columns.map(({ upper }) => upper ?? Number.POSITIVE_INFINITY),
    rowLower: rows.map(({ lower }) => lower ?? Number.NEGATIVE_INFINITY),
    rowUpper: rows.map(({ upper }) => upper ?? Number.POSITIVE_INFINITY),
    matrix: {
      format: 'csr',
      numRows: rows.length,
      numCols: columns.length,
      starts,
      indices: terms.flatMap((row) => row.map(([id]) => position.get(id)!)),
      values: terms.flatMap((row) => row.map(([, by]) => by)),
    },
    ...(columns.some(({ integer }) => integer) ? { integrality: columns.map(({ integer }) => (integer ? 1 : 0)) } : {}),
  });
  try {
    model.options.set({ output_flag: false, time_limit: seconds });
    model.run();
    const status = model.getModelStatus();
    const { modelStatus } = highs.constants;
    if (status === modelStatus.infeasible) return { verdict: 'infeasible' };
    if (status === modelStatus.unbounded) return { verdict: 'unbounded' };
    if (status !== modelStatus.optimal) return { verdict: 'uncertified' };
    return { verdict: 'optimal', x: [...model.getSolution().colValue], objective: model.getObjectiveValue() };
  } finally {
    model.dispose();
  }
}
