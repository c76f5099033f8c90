import type { LinearProgram } from '../../solver/index.js';
import type { Formulated } from '../formulation/formulate.js';
import type { FarkasSum } from '../feed/results.js';
import { formatNumber } from '../units/index.js';

/**
 * The contradiction spelled out: each limit times its weight, added up. No amount of any product or water can make the sum
 * of the left sides more than `most`, yet together the limits ask for `asked`. The first floor has weight 1.
 * Null where the ray needs more than the column bounds to be read.
 */
export function farkasOf({ program, limits }: Formulated, ray: Readonly<Record<string, number>>): FarkasSum | null {
  const { asked, most } = sums(program, ray);
  if (!(asked > most)) return null;
  const used = program.rows.filter((row) => (ray[row.id] ?? 0) !== 0);
  const lead =
    used.find((row) => ray[row.id]! > 0 && row.lower !== undefined && limits.get(row.id)!.kind !== 'water') ?? used[0]!;
  const scale = 1 / Math.abs(ray[lead.id]!);
  const floorsFirst = [...used].sort((a, b) => Math.sign(ray[b.id]!) - Math.sign(ray[a.id]!));
  const terms = floorsFirst.map((row): FarkasSum['terms'][number] => {
    const times = scale * ray[row.id]!;
    const end = (times > 0 ? row.lower : row.upper)!;
    return { limit: limits.get(row.id)!.text, end: times > 0 ? 'least' : 'most', bound: end, times: Math.abs(times) };
  });
  const said = terms
    .map(
      ({ limit, end, times }, i) =>
        `${i === 0 ? SIGNS[end].first : SIGNS[end].next}${formatNumber(times)} × (${limit})`,
    )
    .join('');
  return {
    terms,
    asked: scale * asked,
    most: scale * most,
    sentence:
      most === 0
        ? `${said} must come to at least ${formatNumber(scale * asked)}, and nothing counts above 0 in it: together they ask 0 ≥ ${formatNumber(scale * asked)}`
        : `${said} must come to at least ${formatNumber(scale * asked)}, and no mix brings it above ${formatNumber(scale * most)}`,
  };
}

/** A floor is added, a cap taken away. */
const SIGNS = { least: { first: '', next: ' + ' }, most: { first: '−', next: ' − ' } };

/** Σ ray · end, and the most that Σ ray · row can be within the column bounds. Dust of cancellation counts as nothing. */
function sums(program: LinearProgram, ray: Readonly<Record<string, number>>): { asked: number; most: number } {
  let asked = 0;
  const pull = new Map<string, { value: number; size: number }>();
  for (const row of program.rows) {
    const weight = ray[row.id] ?? 0;
    if (weight === 0) continue;
    asked += weight * (weight > 0 ? row.lower! : row.upper!);
    for (const [id, a] of Object.entries(row.terms)) {
      const old = pull.get(id) ?? { value: 0, size: 0 };
      pull.set(id, { value: old.value + weight * a, size: old.size + Math.abs(weight * a) });
    }
  }
  let most = 0;
  for (const column of program.columns) {
    const { value, size } = pull.get(column.id) ?? { value: 0, size: 0 };
    if (value > 1e-12 * size) most += value * (column.upper ?? Number.POSITIVE_INFINITY);
  }
  return { asked, most };
}
