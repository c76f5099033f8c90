import { describe, expect, it } from 'vitest';
import { solve } from '../../solver/index.js';
import { blend, type Kind } from './blends.js';
import { independent } from './independent.js';

const KINDS: Kind[] = ['loose', 'tight', 'random', 'degenerate', 'conflict', 'unbounded'];
const EACH = 500;

/** Mostly as small as a shelf, now and then as large as a catalogue. */
function size(seed: number): number {
  return seed % 40 === 0 ? 300 : seed % 9 === 0 ? 100 : 8 + (seed % 31);
}

describe(`${KINDS.length * EACH} random blends: every verdict certified, and the same as an independent run`, () => {
  it.each(KINDS.map((kind, k) => [kind, k] as const))('%s', async (kind, k) => {
    const tally: Record<string, number> = {};
    for (let n = 0; n < EACH; n += 1) {
      const seed = 1_000_000 * (k + 1) + n;
      const program = blend(seed, size(n), kind);
      const [ours, theirs] = [await solve(program), await independent(program)];
      tally[ours.verdict] = (tally[ours.verdict] ?? 0) + 1;
      expect(`${seed}: ${ours.verdict}`).toBe(`${seed}: ${theirs.status}`);
      if (ours.verdict !== 'optimal') continue;
      expect(ours.violation).toBeLessThanOrEqual(1e-6);
      expect(ours.gap).toBeLessThanOrEqual(1e-6);
      const apart = Math.abs(ours.objective - theirs.objective);
      expect(apart, `${seed}: ${ours.objective} against ${theirs.objective}`).toBeLessThanOrEqual(
        1e-6 * Math.abs(theirs.objective) + 1e-12,
      );
    }
    // the generator must not quietly stop making what it is there to make
    expect(
      tally[
        {
          loose: 'optimal',
          tight: 'infeasible',
          random: 'optimal',
          degenerate: 'optimal',
          conflict: 'infeasible',
          unbounded: 'unbounded',
        }[kind]
      ],
    ).toBeGreaterThan(EACH / 8);
  });
});

describe('300 random purchases in whole packs', () => {
  it('every verdict the same as an independent run, all proved by arithmetic', async () => {
    const tally: Record<string, number> = {};
    for (let seed = 1; seed <= 300; seed += 1) {
      const made = blend(seed, 4 + (seed % 9), seed % 3 === 0 ? 'random' : 'loose');
      // packs of a tenth of a unit; every fourth product may still be taken in any amount
      const columns = made.columns.map((c, j) => ({
        ...c,
        cost: c.cost / 10,
        upper: (c.upper ?? 5) * 10,
        integer: j % 4 !== 3,
      }));
      const terms = (by: Record<string, number>) =>
        Object.fromEntries(Object.entries(by).map(([id, a]) => [id, a / 10]));
      const program = { columns, rows: made.rows.map((row) => ({ ...row, terms: terms(row.terms) })) };
      const [ours, theirs] = [await solve(program), await independent(program)];
      expect(`${seed}: ${ours.verdict}`).toBe(`${seed}: ${theirs.status}`);
      const how = ours.verdict === 'optimal' ? ours.boundBy : ours.verdict;
      tally[how] = (tally[how] ?? 0) + 1;
      if (ours.verdict !== 'optimal') continue;
      expect(columns.every(({ id, integer }) => !integer || Number.isInteger(ours.x[id]))).toBe(true);
      expect(ours.objective - ours.bound).toBeLessThanOrEqual(1e-6 * Math.abs(ours.objective));
      expect(Math.abs(ours.objective - theirs.objective)).toBeLessThanOrEqual(
        1e-6 * Math.abs(theirs.objective) + 1e-12,
      );
    }
    expect(tally.cases).toBeGreaterThan(50);
    expect(tally.search).toBeUndefined();
  });
});
