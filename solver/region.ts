import { certify } from './certificate.js';
import { check } from './check.js';
import { type Corner, corners, type Form } from './corners.js';
import type { LinearProgram } from './program.js';
import { scale } from './scale.js';
import { solve } from './solve.js';
import { tabulate } from './table.js';

/** Many questions about the same rows and column bounds: a cost per column, in their order, is all that changes. */
export interface Region {
  /** The least Σ cost · x, or null where none is certified. */
  least(cost: readonly number[]): Promise<number | null>;
  /**
   * A point where it is least, per column, or null where none is certified. Where several are equally good, every form that is read has
   * the value that it has at the point that `solve` finds, whatever was asked before.
   */
  point(cost: readonly number[]): Promise<readonly number[] | null>;
}

/**
 * The region of a linear program, whose own costs play no part. Made for some dozen columns and rows, where the way from one corner to the next takes
 * microseconds; whatever the certificate does not accept is left to `solve`. Throws a ProgramError as that does.
 * @param forms what is read of a point: sums over columns, a coefficient for each, in their order; the columns themselves by default
 */
export function regionOf(program: LinearProgram, forms?: readonly Form[]): Region {
  check(program);
  const table = tabulate(program);
  const scaled = scale({ ...table, cost: table.cost.map(() => 0) });
  const apt = table.lower.every(Number.isFinite) && !table.integer.some(Boolean);
  const unit = columnUnits(table.cost.length, scaled);
  const inUnits = (form: Form): number[] => form.map((by, j) => by * unit[j]!);
  const corner = apt ? corners(scaled.table, forms?.map(inUnits)) : () => null;

  const quickly = (cost: readonly number[]): (Corner & { objective: number }) | null => {
    const own = inUnits(cost);
    const size = own.reduce((most, c) => Math.max(most, Math.abs(c)), 0) || 1;
    const found = corner(own.map((c) => c / size));
    if (!found) return null;
    const claim = { claim: 'optimal' as const, x: found.x, y: found.y.map((y) => y * size) };
    const certified = certify({ ...table, cost: [...cost] }, scaled.unscale(claim));
    return certified.verdict === 'optimal' ? { ...certified, alone: found.alone } : null;
  };
  const slowly = (cost: readonly number[]) =>
    solve({ ...program, columns: program.columns.map((column, j) => ({ ...column, cost: cost[j]! })) });

  return {
    async least(cost) {
      const quick = quickly(cost);
      if (quick) return quick.objective;
      const answer = await slowly(cost);
      return answer.verdict === 'optimal' ? answer.objective : null;
    },
    async point(cost) {
      const quick = quickly(cost);
      if (quick?.alone) return quick.x;
      const answer = await slowly(cost);
      return answer.verdict === 'optimal' ? program.columns.map(({ id }) => answer.x[id]!) : null;
    },
  };
}

/** What one unit of each scaled column is in the program. */
function columnUnits(columns: number, scaled: ReturnType<typeof scale>): number[] {
  const ones = new Array<number>(columns).fill(1);
  const claim = scaled.unscale({ claim: 'optimal', x: ones, y: [] });
  return claim.claim === 'optimal' ? claim.x : ones;
}
