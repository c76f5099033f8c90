import { describe, expect, it } from 'vitest';
import { boxed, type LinearProgram, solve } from '../../solver/index.js';
import { blend, type Kind } from './blends.js';
import { dice } from './dice.js';

const KINDS: Kind[] = ['loose', 'tight', 'random', 'degenerate', 'conflict', 'unbounded'];

/** Ends of the columns drawn by chance: some shut, some opened from a least, the others as they were. */
function endsOf({ columns }: LinearProgram, seed: number): { lower: number[]; upper: number[] } {
  const d = dice(seed);
  const ends = columns.map(({ lower = 0, upper = Number.POSITIVE_INFINITY }) => {
    if (lower === 0 && d.chance(0.25)) return [0, 0] as const;
    return [lower === 0 && d.chance(0.2) ? Math.min(d.between(0.001, 0.2), upper) : lower, upper] as const;
  });
  return { lower: ends.map(([lower]) => lower), upper: ends.map(([, upper]) => upper) };
}

describe('one program, asked with other bounds', () => {
  it.each(KINDS)('%s: each verdict is that of the program by itself', async (kind) => {
    for (let seed = 1; seed <= 10; seed += 1) {
      const program = blend(seed, 5 + 4 * seed, kind);
      const { within } = boxed(program);
      for (let question = 0; question < 6; question += 1) {
        const ends = endsOf(program, 100 * seed + question);
        const columns = program.columns.map((c, j) => ({ ...c, lower: ends.lower[j]!, upper: ends.upper[j]! }));
        const [quick, alone] = [await within(ends), await solve({ ...program, columns })];
        expect(quick.verdict).toBe(alone.verdict);
        if (quick.verdict !== 'optimal' || alone.verdict !== 'optimal') continue;
        expect(Math.abs(quick.objective - alone.objective)).toBeLessThanOrEqual(2e-6 * Math.abs(alone.objective));
      }
    }
  });

  it.each(KINDS)('%s: the dual method first answers as the others do', async (kind) => {
    for (let seed = 51; seed <= 62; seed += 1) {
      const program = blend(seed, 3 * (seed - 48), kind);
      const [dual, usual] = [await solve(program, { dualFirst: true }), await solve(program)];
      expect(dual.verdict).toBe(usual.verdict);
      if (dual.verdict !== 'optimal' || usual.verdict !== 'optimal') continue;
      expect(Math.abs(dual.objective - usual.objective)).toBeLessThanOrEqual(2e-6 * Math.abs(usual.objective));
    }
  });
});
