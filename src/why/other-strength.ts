import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import type { Formulated } from '../formulation/index.js';
import type { Relaxation } from '../feed/why-not.js';
import { log, powerOfTen } from '../units/elementary.js';

/** A tenth of what was asked, or ten times it, is another feed, not a way out. */
const WEAKEST = 0.1;
const STRONGEST = 10;

/**
 * The nearest strength at which a mix exists: one column scales every band (nitrogen's with the rest), while rules, EC cap, label
 * ceilings and stock stay as they are. Null where there is none.
 */
export async function otherStrength(formulated: Formulated): Promise<Relaxation | null> {
  const { request } = formulated;
  const program = scaling(formulated);
  const weaker = await extreme(program, WEAKEST, 1, -1);
  const stronger = await extreme(program, 1, STRONGEST, 1);
  const found = [weaker, stronger].filter((s): s is number => s !== null);
  if (found.length === 0) return null;
  const factor = found.reduce((a, b) => (Math.abs(log(a)) <= Math.abs(log(b)) ? a : b));
  const { header } = request;
  const nitrogen = request.programme.bands.N?.aim;
  return {
    kind: 'strength',
    from: header.strengthFactor,
    to: header.strengthFactor * factor,
    ...(await printable(program, factor, 100 * header.strengthFactor * factor)),
    nitrogen: nitrogen === undefined ? null : nitrogen * factor,
    asked: header.strength,
  };
}

/** The program with the ends of every band times a column `strength`. */
function scaling({ program, limited }: Formulated): LinearProgram {
  const rows = limited.map(({ limit, row }): Row => {
    if (limit.kind !== 'nutrient') return row;
    const { end, bound } = limit;
    return { id: row.id, [end === 'least' ? 'lower' : 'upper']: 0, terms: { ...row.terms, strength: -bound } };
  });
  return { columns: [...program.columns.map((c) => ({ ...c, cost: 0 })), { id: 'strength', cost: 0 }], rows };
}

/** The strength nearest to 1 between two others, from below (−1) or above (1). */
async function extreme(program: LinearProgram, lower: number, upper: number, sign: 1 | -1): Promise<number | null> {
  const columns = program.columns.map((c) => (c.id === 'strength' ? { ...c, lower, upper, cost: sign } : c));
  const answer = await solve({ ...program, columns });
  return answer.verdict === 'optimal' ? answer.x.strength! : null;
}

/** The percentage with as few decimals as still work, rounded away from what was asked; without decimals given: as it is. */
async function printable(
  program: LinearProgram,
  factor: number,
  exact: number,
): Promise<{ percent: number; decimals: number | null }> {
  for (const digits of [0, 1, 2, 3]) {
    const step = powerOfTen(-digits);
    const shown = (factor < 1 ? Math.floor(exact / step) : Math.ceil(exact / step)) * step;
    const at = (shown / exact) * factor;
    if (shown > 0 && (await extreme(program, at, at, 1)) !== null) return { percent: shown, decimals: digits };
  }
  return { percent: exact, decimals: null };
}
