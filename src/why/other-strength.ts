import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import type { Formulated } from '../formulation/formulate.js';
import type { FeedRequest } from '../feed/request.js';
import type { Relaxation } from '../feed/results.js';
import { formatNumber, formatUpTo } from '../units/index.js';

/** A tenth of what was asked, or ten times it, is another feed, not a way out. */
const WEAKEST = 0.1;
const STRONGEST = 10;

/**
 * The nearest strength at which a mix exists: one column scales every band (nitrogen's with the rest), while rules, EC cap, label
 * ceilings and stock stay as they are. Null where there is none.
 */
export async function otherStrength(formulated: Formulated, request: FeedRequest): Promise<Relaxation | null> {
  const program = scaling(formulated);
  const weaker = await extreme(program, WEAKEST, 1, -1);
  const stronger = await extreme(program, 1, STRONGEST, 1);
  const found = [weaker, stronger].filter((s): s is number => s !== null);
  if (found.length === 0) return null;
  const factor = found.reduce((a, b) => (Math.abs(Math.log(a)) <= Math.abs(Math.log(b)) ? a : b));
  const { header } = request;
  const shown = await printable(program, factor, (s) => 100 * header.strengthFactor * s);
  const to = header.strengthFactor * factor;
  const nitrogen = request.programme.bands.N?.aim;
  const inNitrogen = nitrogen !== undefined ? ` (N ${formatNumber(nitrogen * factor)} mg/L)` : '';
  return {
    kind: 'strength',
    limit: 'strength',
    change: `strength ${shown} %${inNitrogen} instead of ${header.strength}`,
    from: header.strengthFactor,
    to,
  };
}

/** The program with the ends of every band times a column `strength`. */
function scaling({ program, limits }: Formulated): LinearProgram {
  const rows = program.rows.map((row): Row => {
    const { kind } = limits.get(row.id)!;
    if (kind !== 'min' && kind !== 'max') return row;
    const end = (kind === 'min' ? row.lower : row.upper)!;
    return { id: row.id, [kind === 'min' ? 'lower' : 'upper']: 0, terms: { ...row.terms, strength: -end } };
  });
  return { columns: [...program.columns.map((c) => ({ ...c, cost: 0 })), { id: 'strength', cost: 0 }], rows };
}

/** The strength nearest to 1 between two others, from below (−1) or above (1). */
async function extreme(program: LinearProgram, lower: number, upper: number, sign: 1 | -1): Promise<number | null> {
  const columns = program.columns.map((c) => (c.id === 'strength' ? { ...c, lower, upper, cost: sign } : c));
  const answer = await solve({ ...program, columns });
  return answer.verdict === 'optimal' ? answer.x.strength! : null;
}

/** The percentage with as few digits as still work, rounded away from what was asked. */
async function printable(program: LinearProgram, factor: number, percent: (factor: number) => number): Promise<string> {
  const exact = percent(factor);
  for (const digits of [0, 1, 2, 3]) {
    const step = 10 ** -digits;
    const shown = (factor < 1 ? Math.floor(exact / step) : Math.ceil(exact / step)) * step;
    const at = (shown / exact) * factor;
    if (shown > 0 && (await extreme(program, at, at, 1)) !== null) return formatUpTo(shown, digits);
  }
  return formatNumber(exact);
}
