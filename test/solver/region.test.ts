import { describe, expect, it } from 'vitest';
import { type LinearProgram, ProgramError, regionOf, solve } from '../../solver/index.js';
import { corners } from '../../solver/corners.js';
import { tabulate } from '../../solver/table.js';
import { blend, type Kind } from './blends.js';
import { dice } from './dice.js';

/** The program with other costs, in the order of its columns. */
const priced = (program: LinearProgram, cost: readonly number[]): LinearProgram => ({
  ...program,
  columns: program.columns.map((column, j) => ({ ...column, cost: cost[j]! })),
});

/** Costs that pull each way, some of a single column, some with zeros. */
function costsFor(program: LinearProgram, seed: number): number[][] {
  const d = dice(seed);
  const n = program.columns.length;
  const of = (cost: (j: number) => number): number[] => Array.from({ length: n }, (_, j) => cost(j));
  const single = d.whole(0, n - 1);
  return [
    of((j) => program.columns[j]!.cost),
    of((j) => (j === single ? 1 : 0)),
    of((j) => (j === single ? -1 : 0)),
    of(() => d.between(-1, 1)),
    of(() => (d.chance(0.5) ? 0 : d.between(0.1, 10))),
    of((j) => -program.columns[j]!.cost),
  ];
}

describe('many costs on one region', () => {
  it.each<Kind>(['loose', 'tight', 'random', 'degenerate', 'conflict', 'unbounded'])(
    '%s: every least value and point is that of a program by itself',
    async (kind) => {
      let met = 0;
      for (let seed = 1; seed <= 12; seed += 1) {
        const program = blend(seed, 6 + 4 * seed, kind);
        const region = regionOf(program);
        for (const cost of costsFor(program, seed)) {
          const alone = await solve(priced(program, cost));
          const [least, point] = [await region.least(cost), await region.point(cost)];
          if (alone.verdict !== 'optimal') {
            expect([least, point], `${kind} ${seed}`).toEqual([null, null]);
            continue;
          }
          met += 1;
          const size = Math.max(Math.abs(alone.objective), 1e-9);
          // what the certificate allows either of them
          expect(Math.abs(least! - alone.objective) / size, `${kind} ${seed}`).toBeLessThan(2e-6);
          program.columns.forEach(({ id }, j) => {
            const far = Math.abs(point![j]! - alone.x[id]!);
            expect(far / Math.max(1, Math.abs(alone.x[id]!)), `${kind} ${seed} ${id}`).toBeLessThan(1e-6);
          });
        }
      }
      if (kind !== 'conflict') expect(met).toBeGreaterThan(5);
    },
  );

  const square: LinearProgram = {
    columns: ['a', 'b', 'c'].map((id) => ({ id, cost: 0, upper: 2 })),
    rows: [{ id: 'sum', lower: 1, upper: 3, terms: { a: 1, b: 1 } }],
  };

  it('says what a program by itself says where several points are best, whatever was asked before', async () => {
    const alone = await solve(priced(square, [1, 1, 0]));
    const expected = alone.verdict === 'optimal' ? ['a', 'b', 'c'].map((id) => alone.x[id]) : null;
    for (const before of [
      [1, 2, 1],
      [2, 1, -1],
      [-1, 0, 1],
    ]) {
      const region = regionOf(square);
      await region.point(before);
      expect(await region.point([1, 1, 0])).toEqual(expected);
      expect(await region.least([1, 1, 0])).toBeCloseTo(1, 9);
    }
  });

  it('lets a point be any that is as good, where what is read of it is the same', async () => {
    const region = regionOf(square, [
      [1, 0, 0],
      [0, 1, 0],
    ]);
    const point = await region.point([1, 2, 0]);
    expect(point!.slice(0, 2)).toEqual([1, 0]);
    const sum = await regionOf(square, [[1, 1, 0]]).point([1, 1, 0]);
    expect(sum![0]! + sum![1]!).toBeCloseTo(1, 9);
  });

  it('takes free columns and whole ones, too', async () => {
    const free: LinearProgram = {
      columns: [{ id: 'a', cost: 0, lower: Number.NEGATIVE_INFINITY }],
      rows: [{ id: 'r', lower: -3, upper: 4.5, terms: { a: 1 } }],
    };
    expect(await regionOf(free).least([1])).toBeCloseTo(-3, 9);
    const whole = { ...free, columns: [{ id: 'a', cost: 0, integer: true }] };
    expect(await regionOf(whole).point([-1])).toEqual([4]);
  });

  it('goes from corner to corner by itself, and tells a corner from an edge', () => {
    const corner = corners(tabulate(square));
    expect(corner([1, 2, 0.5])).toEqual({ x: [1, 0, 0], y: [1], alone: true });
    expect(corner([-1, -2, -1])).toEqual({ x: [1, 2, 2], y: [-1], alone: true });
    expect(corner([1, 1, 1])).toMatchObject({ y: [1], alone: false });
    expect(corner([1, 2, 0])!.alone).toBe(false);
    const two = [
      [1, 0, 0],
      [0, 1, 0],
    ];
    expect(corners(tabulate(square), two)([1, 2, 0])!.alone).toBe(true);
    expect(corners(tabulate(square), [[1, 1, 0]])([1, 1, 1])!.alone).toBe(true);
    expect(corners(tabulate(square), [[1, 2, 0]])([1, 1, 1])!.alone).toBe(false);
    const crossed = { ...square, rows: [...square.rows, { id: 'most', upper: 0.5, terms: { a: 1, b: 1 } }] };
    expect(corners(tabulate(crossed))([1, 1, 1])).toBe(null);
  });

  it('refuses a faulty program as solve does', () => {
    expect(() => regionOf({ columns: [{ id: 'a', cost: Number.NaN }], rows: [] })).toThrow(ProgramError);
  });
});
