import type { LinearProgram } from '../../solver/index.js';
import type { FarkasSum } from '../feed/why-not.js';
import type { Formulated } from '../formulation/index.js';

/**
 * The contradiction spelled out: each limit times its weight, added up. No amount of any product or water can make the sum
 * of the left sides more than `most`, yet together the limits ask for `asked`. The first floor has weight 1.
 * Null where the ray needs more than the column bounds to be read.
 */
export function farkasOf({ program, limited }: Formulated, ray: Readonly<Record<string, number>>): FarkasSum | null {
  const { asked, most } = sums(program, ray);
  if (!(asked > most)) return null;
  const used = limited.flatMap(({ limit, row }) => {
    const weight = ray[row.id] ?? 0;
    return weight === 0 ? [] : [{ limit, row, weight }];
  });
  const lead =
    used.find(({ limit, row, weight }) => weight > 0 && row.lower !== undefined && limit.kind !== 'water') ?? used[0]!;
  const scale = 1 / Math.abs(lead.weight);
  const floorsFirst = [...used].sort((a, b) => Math.sign(b.weight) - Math.sign(a.weight));
  return {
    terms: floorsFirst.map(({ limit, row, weight }): FarkasSum['terms'][number] => {
      const isFloor = weight > 0;
      return {
        limit,
        end: isFloor ? 'least' : 'most',
        bound: (isFloor ? row.lower : row.upper)!,
        times: Math.abs(scale * weight),
      };
    }),
    asked: scale * asked,
    most: scale * most,
  };
}

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
