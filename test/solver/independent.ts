import loadHighs from 'highs';
import type { LinearProgram } from '../../solver/index.js';

const QUIET = { output_flag: false, mip_rel_gap: 0, mip_abs_gap: 0 };
const FINE = { ...QUIET, primal_feasibility_tolerance: 1e-9, dual_feasibility_tolerance: 1e-9 };

/**
 * HiGHS by its other door, as CPLEX-LP text: shares no line with the solver's own wrapper. Where it gives up with
 * "unknown" at fine tolerances it is asked again without presolve, then at its own tolerances.
 */
export async function independent(program: LinearProgram): Promise<{ status: string; objective: number }> {
  highs ??= loadHighs();
  const text = lpText(program);
  let last = { status: 'none', objective: Number.NaN };
  for (const options of [FINE, { ...FINE, presolve: 'off' as const }, QUIET]) {
    const { Status, ObjectiveValue } = (await highs).solve(text, options);
    last = { status: Status.toLowerCase(), objective: ObjectiveValue };
    if (['optimal', 'infeasible', 'unbounded'].includes(last.status)) break;
  }
  return last;
}

let highs: ReturnType<typeof loadHighs> | undefined;

function lpText({ columns, rows }: LinearProgram): string {
  const name = new Map(columns.map(({ id }, j) => [id, `c${j}`]));
  const sum = (terms: [string, number][]) =>
    terms.map(([id, by]) => `${by < 0 ? '-' : '+'} ${Math.abs(by)} ${name.get(id)}`).join(' ');
  const lines = rows.flatMap(({ lower, upper, terms }, i) => {
    const left = sum(Object.entries(terms)) || `0 ${name.get(columns[0]!.id)}`;
    return [
      ...(lower === undefined ? [] : [`l${i}: ${left} >= ${lower}`]),
      ...(upper === undefined ? [] : [`u${i}: ${left} <= ${upper}`]),
    ];
  });
  const bounds = columns.map(({ id, lower = 0, upper }) => `${lower} <= ${name.get(id)} <= ${upper ?? 'inf'}`);
  return [
    'Minimize',
    `cost: ${sum(columns.map(({ id, cost }) => [id, cost]))}`,
    'Subject To',
    ...lines,
    'Bounds',
    ...bounds,
    ...(columns.some(({ integer }) => integer)
      ? ['General', ...columns.flatMap(({ id, integer }) => (integer ? [name.get(id)!] : []))]
      : []),
    'End',
  ].join('\n');
}
