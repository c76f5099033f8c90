import beale from '../../programs/beale.json';
import chvatal from '../../programs/chvatal-cycle.json';
import klee from '../../programs/klee-minty.json';
import wholePaint from '../../programs/reddy-mikks-whole.json';
import paint from '../../programs/reddy-mikks.json';
import feedMix from '../../programs/taha-feed-mix.json';
import wyndor from '../../programs/wyndor.json';
import type { LinearProgram } from '../../../solver/index.js';
import { type Family, logUniform } from './family.js';

const PROGRAMS = [beale, chvatal, klee, wholePaint, paint, feedMix, wyndor].map(
  (file) => file.program as unknown as LinearProgram,
);

/** The published programs of `test/programs`, each with its source there, in other units and with moved ends. */
export const published: Family[] = [
  {
    name: 'published programs, in other units',
    make: (d) => {
      const { columns, rows } = d.pick(PROGRAMS);
      const unit = new Map(columns.map(({ id, integer }) => [id, integer ? 1 : 10 ** d.whole(-4, 4)]));
      const money = 10 ** d.whole(-4, 4);
      const off = d.chance(0.5) ? 0 : logUniform(d, -9, -2);
      const moved = (end: number) => end * (1 + off * d.between(-1, 1));
      const ends = (of: { lower?: number; upper?: number }, by: number) => ({
        ...(of.lower === undefined ? {} : { lower: moved(of.lower) * by }),
        ...(of.upper === undefined ? {} : { upper: moved(of.upper) * by }),
      });
      return {
        columns: columns.map((column) => {
          const by = unit.get(column.id)!;
          return { ...column, cost: column.cost * by * money, ...uncrossed(ends(column, 1 / by)) };
        }),
        rows: rows.map((row) => {
          const by = 10 ** d.whole(-4, 4);
          const terms = Object.entries(row.terms).map(([id, a]) => [id, a * by * unit.get(id)!] as const);
          return { ...row, ...uncrossed(ends(row, by)), terms: Object.fromEntries(terms) };
        }),
      };
    },
  },
];

/** The ends of an equality move together. */
function uncrossed(ends: { lower?: number; upper?: number }): { lower?: number; upper?: number } {
  const { lower, upper } = ends;
  return lower !== undefined && upper !== undefined && lower > upper ? { lower: upper, upper } : ends;
}
