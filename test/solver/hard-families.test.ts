import { describe, expect, it } from 'vitest';
import { highs, type LinearProgram, simplex, solve } from '../../solver/index.js';
import { dice } from './dice.js';
import { independent } from './independent.js';

/** Programs that rows scaled to their ends made hard; each answer is known in closed form or by an independent run. */
describe('hard by their numbers', () => {
  it('a + b = 100, −1e-7 ≤ a − 0.7b ≤ 1e-7, and 200 pairs like it, none given up', async () => {
    for (let seed = 0; seed <= 200; seed += 1) {
      const d = dice(seed);
      const [ca, cb, k, w] =
        seed === 0 ? [1, 2, 0.7, 1e-7] : [d.between(1, 3), d.between(1, 3), d.between(0.1, 2), 10 ** -d.whole(5, 9)];
      const found = await solve({
        columns: [
          { id: 'a', cost: ca },
          { id: 'b', cost: cb },
        ],
        rows: [
          { id: 'sum', lower: 100, upper: 100, terms: { a: 1, b: 1 } },
          { id: 'pair', lower: -w, upper: w, terms: { a: 1, b: -k } },
        ],
      });
      // a − k b = e, |e| ≤ w: a = (100 k + e) / (1 + k)
      const cost = (e: number) => 100 * cb + ((ca - cb) * (100 * k + e)) / (1 + k);
      const least = Math.min(cost(w), cost(-w));
      expect(`${seed}: ${found.verdict}`).toBe(`${seed}: optimal`);
      if (found.verdict === 'optimal') expect(Math.abs(found.objective - least)).toBeLessThanOrEqual(1e-9 * least);
    }
  });

  it('entries from 1e-9 to 1e6: one row each, the cheapest per unit fills it', async () => {
    for (let seed = 1; seed <= 200; seed += 1) {
      const d = dice(seed);
      const columns = Array.from({ length: d.whole(2, 6) }, (_, j) => ({ id: `x${j}`, cost: 10 ** d.between(-6, 5) }));
      const terms = Object.fromEntries(columns.map(({ id }) => [id, 10 ** d.between(-9, 6)]));
      const end = 10 ** d.between(-6, 6);
      const found = await solve({ columns, rows: [{ id: 'r', lower: end, terms }] });
      const least = Math.min(...columns.map(({ id, cost }) => (cost * end) / terms[id]!));
      expect(`${seed}: ${found.verdict}`).toBe(`${seed}: optimal`);
      if (found.verdict === 'optimal') expect(Math.abs(found.objective - least)).toBeLessThanOrEqual(2e-6 * least);
    }
  });

  it('bounds to 1e12 that the answer stays far from', async () => {
    for (let seed = 1; seed <= 100; seed += 1) {
      const d = dice(seed);
      const columns = Array.from({ length: 5 }, (_, j) => ({
        id: `x${j}`,
        cost: d.between(0.1, 2),
        upper: 10 ** d.between(8, 12),
      }));
      const terms = Object.fromEntries(columns.map(({ id }) => [id, d.between(0.1, 1)]));
      const end = d.between(1, 100);
      const found = await solve({ columns, rows: [{ id: 'r', lower: end, terms }] });
      const least = Math.min(...columns.map(({ id, cost }) => (cost * end) / terms[id]!));
      expect(`${seed}: ${found.verdict}`).toBe(`${seed}: optimal`);
      if (found.verdict === 'optimal') expect(Math.abs(found.objective - least)).toBeLessThanOrEqual(2e-6 * least);
    }
  });

  it('two rows that miss one another by 1e-5 to 1e-7 conflict; that leave such a band do not', async () => {
    for (let seed = 1; seed <= 100; seed += 1) {
      const d = dice(seed);
      const columns = Array.from({ length: 4 }, (_, j) => ({ id: `x${j}`, cost: d.between(0.1, 2) }));
      const terms = Object.fromEntries(columns.map(({ id }) => [id, d.between(0.1, 1)]));
      for (const hair of [-1e-5, -1e-6, -1e-7, 1e-7, 1e-6, 1e-5]) {
        const rows = [
          { id: 'least', lower: 10, terms },
          { id: 'most', upper: 10 * (1 + hair), terms },
        ];
        const found = await solve({ columns, rows });
        expect(`${seed} ${hair}: ${found.verdict}`).toBe(`${seed} ${hair}: ${hair < 0 ? 'infeasible' : 'optimal'}`);
      }
    }
  });
});

describe('work that runs out', () => {
  const d = dice(200);
  const columns = Array.from({ length: 200 }, (_, j) => ({ id: `x${j}`, cost: d.between(0.5, 2) }));
  const dense: LinearProgram = {
    columns,
    rows: Array.from({ length: 200 }, (_, i) => {
      const terms = Object.fromEntries(columns.map(({ id }) => [id, d.between(-1, 1)]));
      const value = columns.reduce((sum, { id }, j) => sum + terms[id]! * (j % 2), 0);
      return { id: `r${i}`, lower: value - d.unit(), upper: value + d.unit(), terms };
    }),
  };

  it('a dense 200 × 200 program goes to the next engine, and both times to the same answer', async () => {
    const [once, again] = [await solve(dense), await solve(dense)];
    expect(once).toMatchObject({ verdict: 'optimal', engine: 'highs' });
    expect(again).toEqual(once);
    const theirs = await independent(dense);
    expect(once.verdict === 'optimal' && Math.abs(once.objective / theirs.objective - 1)).toBeLessThanOrEqual(1e-6);
  });

  it('with no next engine it is told from a refusal', async () => {
    expect(await solve(dense, { engines: [simplex] })).toMatchObject({ verdict: 'uncertified', unfinished: true });
    expect((await solve(dense, { engines: [highs] })).verdict).toBe('optimal');
  });
});
