import { describe, expect, it } from 'vitest';
import { type LinearProgram, solve } from '../../solver/index.js';
import type { Engine } from '../../solver/index.js';

/** One dear column with a tiny coefficient: what a row would cost by that column alone is no measure of a gap. */
const dear: LinearProgram = {
  columns: [
    { id: 'x1', cost: 2e5 },
    { id: 'x4', cost: 0.08 },
    { id: 'x5', cost: 1e-6 },
  ],
  rows: [
    { id: 'trace', lower: -1e-9, terms: { x5: 1e5 } },
    { id: 'whole', lower: 6000, upper: 7000, terms: { x1: 7e-7, x4: 0.3, x5: 900 } },
  ],
};
const says = (x: number[], y: number[]): Engine => ({
  name: 'says',
  integers: false,
  // as the engine sees it the table is scaled; a program whose numbers are near 1 is not
  solve: () => ({ claim: 'optimal', x, y }),
});

describe('what a gap and a violation are measured against', () => {
  it('one dear column: the optimum is 6000/900 of the cheapest', async () => {
    const found = await solve(dear);
    if (found.verdict !== 'optimal') throw new Error(found.verdict);
    const optimum = (1e-6 * 6000) / 900;
    expect(Math.abs(found.objective - optimum)).toBeLessThanOrEqual(1e-6 * optimum);
    expect(found.objective - found.bound).toBeLessThanOrEqual(1e-6 * optimum);
  });

  it('an optimum of 0 is not any cost that is small beside a cost unpaid', async () => {
    // a = 1 costs 1e-7, b = 1 nothing; c would cost 1
    const program: LinearProgram = {
      columns: [
        { id: 'a', cost: 2 ** -24 },
        { id: 'b', cost: 0 },
        { id: 'c', cost: 1 },
      ],
      rows: [{ id: 'r', lower: 1, upper: 1, terms: { a: 1, b: 1, c: 1 } }],
    };
    expect((await solve(program, { engines: [says([1, 0, 0], [0])] })).verdict).toBe('uncertified');
    expect(await solve(program, { engines: [says([0, 1, 0], [0])] })).toMatchObject({ objective: 0, bound: 0, gap: 0 });
  });

  it('a small end is kept to a part of itself, however large the other end or the terms', async () => {
    const low: LinearProgram = {
      columns: [{ id: 'a', cost: 1 }],
      rows: [{ id: 'r', lower: 1e-9, upper: 7000, terms: { a: 1 } }],
    };
    expect((await solve(low, { engines: [says([0], [0])] })).verdict).toBe('uncertified');
    const cancelling: LinearProgram = {
      columns: [
        { id: 'a', cost: 0, lower: 1024, upper: 1024 },
        { id: 'b', cost: 1 },
      ],
      rows: [{ id: 'r', lower: 1e-9, terms: { a: -1, b: 1 } }],
    };
    const b = 1024 + 0.9e-9;
    expect((await solve(cancelling, { engines: [says([1024, b], [1])] })).verdict).toBe('uncertified');
  });

  it('a slope of 1 part in 10,000,000,000 still ends a ray, and 1 in 1e10 still ends a proof of conflict', async () => {
    const columns = [
      { id: 'a', cost: -1 },
      { id: 'b', cost: 0 },
      { id: 'c', cost: 0 },
    ];
    const slow: LinearProgram = {
      columns,
      rows: [
        { id: 'r', upper: 1, terms: { a: 1, b: -1 } },
        { id: 's', upper: 0, terms: { a: -1, b: 1 - 2 ** -33 } },
      ],
    };
    // Σ: −b / 2³³ ≤ … leaves b ≥ …, a ≤ 1 + b without end; turned round, b ≤ 2³³
    expect((await solve(slow)).verdict).toBe('unbounded');
    const ends = { columns, rows: [slow.rows[0]!, { id: 's', upper: 0, terms: { a: -1, b: 1 + 2 ** -33 } }] };
    const found = await solve(ends);
    // a ≤ 1 + b and b (1 + 2⁻³³) ≤ a: b ≤ 2³³, a ≤ 1 + 2³³
    expect(found.verdict).not.toBe('unbounded');
    expect(found.verdict).not.toBe('infeasible');
    if (found.verdict === 'optimal') expect(found.objective).toBeCloseTo(-1 - 2 ** 33, -4);
  });
});
