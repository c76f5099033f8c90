import { certify } from './certificate.js';
import { check } from './check.js';
import { type Corner, corners } from './corners.js';
import type { LinearProgram } from './program.js';
import { scale } from './scale.js';
import { solve } from './solve.js';
import { tabulate } from './table.js';

/** Many questions about the same rows and column bounds: a cost per column, in their order, is all that changes. */
export interface Region {
  /** The least Σ cost · x, or null where none is certified. */
  least(cost: readonly number[]): Promise<number | null>;
  /**
   * The point where it is least, per column, or null where none is certified. Where several are equally good it is the one that `solve` says, whatever was
   * asked before; but for columns that do not count in what is asked, which may then be anything as good.
   */
  point(cost: readonly number[], counts?: readonly boolean[]): Promise<readonly number[] | null>;
}

/**
 * The region of a linear program, whose own costs play no part. Made for some dozen columns and rows, where the way from one corner to the next takes
 * microseconds; whatever the certificate does not accept is left to `solve`. Throws a ProgramError as that does.
 */
export function regionOf(program: LinearProgram): Region {
  check(program);
  const table = tabulate(program);
  const scaled = scale({ ...table, cost: table.cost.map(() => 0) });
  const apt = table.lower.every(Number.isFinite) && !table.integer.some(Boolean);
  const corner = apt ? corners(scaled.table) : () => null;
  const unit = columnUnits(table.cost.length, scaled);

  const quickly = (cost: readonly number[], counts?: readonly boolean[]): (Corner & { objective: number }) | null => {
    const own = cost.map((c, j) => c * unit[j]!);
    const size = own.reduce((most, c) => Math.max(most, Math.abs(c)), 0) || 1;
    const found = corner(
      own.map((c) => c / size),
      counts,
    );
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
    async point(cost, counts) {
      const quick = quickly(cost, counts);
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
