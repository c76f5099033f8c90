import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import type { LinearProgram } from '../../solver/index.js';
import { dice } from '../solver/dice.js';
import { stigler } from '../solver/stigler.js';
import { dyadic, ratioOf, toNumber } from './dyadic.js';
import { exact } from './exact.js';
import { dot, type Line, list, program } from './families/family.js';

describe('doubles as fractions', () => {
  it.each([0, 1, -3, 0.1, 1e-9, 1e300, 5e-324, -(2 ** 60 + 2 ** 20), 1 / 3])('%d comes back', (value) => {
    expect(toNumber(ratioOf(value))).toBe(value);
  });
  it('0.1 is 3602879701896397 / 2^55', () => {
    expect(dyadic(0.1)).toEqual({ whole: 3602879701896397n, exponent: -55 });
  });
});

const here = new URL('../programs/', import.meta.url);
const published = readdirSync(here).filter((file) => file.endsWith('.json'));

describe('published programs come to the optimum of their source', () => {
  it.each(published)('%s', (file) => {
    const { program: published, expect: known } = JSON.parse(readFileSync(new URL(file, here), 'utf8'));
    const found = exact(published);
    expect(found.status).toBe(known.verdict);
    if (found.status === 'optimal')
      expect(Math.abs(toNumber(found.objective) - known.objective)).toBeLessThanOrEqual(known.printedTo);
  });
  it('Stigler 1945: the least-cost diet (J. Farm Economics 27:303)', () => {
    const found = exact(stigler());
    expect(found.status === 'optimal' && toNumber(found.objective)).toBeCloseTo(0.108662, 6);
  });
});

describe('by hand', () => {
  const status = (columns: LinearProgram['columns'], rows: LinearProgram['rows']) => exact({ columns, rows }).status;
  it('0.1 + 0.2 is not 0.3 in doubles, and exactness says so', () => {
    const columns = [
      { id: 'a', cost: 0, lower: 1, upper: 1 },
      { id: 'b', cost: 0, lower: 1, upper: 1 },
    ];
    const row = (end: number) => [{ id: 'r', lower: end, upper: end, terms: { a: 0.1, b: 0.2 } }];
    expect(status(columns, row(0.3))).toBe('infeasible');
    expect(status(columns, row(0.25 + 0.05))).toBe('infeasible');
  });
  it('infeasible and unbounded by one unit in the last place', () => {
    const a = { id: 'a', cost: 0 };
    const above = 1 + Number.EPSILON;
    const rows = (end: number) => [
      { id: 'low', lower: end, terms: { a: 1 } },
      { id: 'high', upper: 1, terms: { a: 1 } },
    ];
    expect(status([a], rows(1))).toBe('optimal');
    expect(status([a], rows(above))).toBe('infeasible');
    const pair = [
      { id: 'a', cost: -1 },
      { id: 'b', cost: 1 },
    ];
    const tied = (by: number) => [{ id: 'tie', lower: 0, terms: { a: -1, b: by } }];
    expect(status(pair, tied(1))).toBe('optimal');
    expect(status(pair, tied(above))).toBe('unbounded');
  });
  it('free columns, columns without a lower bound, rows without terms', () => {
    const free = { id: 'a', cost: 1, lower: Number.NEGATIVE_INFINITY };
    expect(status([free], [])).toBe('unbounded');
    expect(status([{ ...free, upper: 3, cost: -1 }], [])).toBe('optimal');
    expect(status([], [{ id: 'r', lower: 1, terms: {} }])).toBe('infeasible');
    expect(status([], [])).toBe('optimal');
  });
  it('whole numbers that cannot be, without end to the search: parity, two equalities, a narrow range', () => {
    const whole = ['a', 'b', 'c'].map((id) => ({ id, cost: 1, integer: true, lower: Number.NEGATIVE_INFINITY }));
    expect(status(whole, [{ id: 'r', lower: 7, upper: 7, terms: { a: 2, b: 4, c: -6 } }])).toBe('infeasible');
    const two: LinearProgram['rows'] = [
      { id: 'r', lower: 1, upper: 1, terms: { a: 1, b: 1, c: 2 } },
      { id: 's', lower: 0, upper: 0, terms: { a: 1, b: -1 } },
    ];
    expect(status(whole, two)).toBe('infeasible');
    expect(status(whole, [{ id: 'r', lower: 0.25, upper: 0.75, terms: { a: 1, b: -1 } }])).toBe('infeasible');
    expect(status(whole, [{ id: 'r', lower: 1, upper: 1, terms: { a: 3, b: 5 } }])).toBe('unbounded');
  });
});

describe('whole numbers', () => {
  it('branch and bound finds what trying every point finds', () => {
    const tally = { optimal: 0, infeasible: 0 };
    for (let seed = 1; seed <= 150; seed += 1) {
      const d = dice(seed);
      const n = d.whole(1, 4);
      const columns = list(n, () => ({
        cost: d.whole(-6, 9),
        lower: -d.whole(0, 2),
        upper: d.whole(0, 4),
        integer: true,
      }));
      const lines = list(d.whole(1, 3), (): Line => {
        const by = list(n, () => d.whole(-5, 7));
        const lower = d.whole(-8, 8);
        return d.chance(0.4)
          ? { by, lower, upper: lower + d.whole(0, 1) }
          : d.chance(0.5)
            ? { by, lower }
            : { by, upper: lower };
      });
      const found = exact(program(columns, lines));
      const costs = points(columns)
        .filter((x) =>
          lines.every(({ by, lower, upper }) => dot(by, x) >= (lower ?? -99) && dot(by, x) <= (upper ?? 99)),
        )
        .map((x) =>
          dot(
            columns.map(({ cost }) => cost),
            x,
          ),
        );
      const best = costs.length > 0 ? Math.min(...costs) : 'infeasible';
      const ours = found.status === 'optimal' ? toNumber(found.objective) : found.status;
      expect(`${seed}: ${ours}`).toBe(`${seed}: ${best}`);
      tally[costs.length > 0 ? 'optimal' : 'infeasible'] += 1;
    }
    expect(Math.min(tally.optimal, tally.infeasible)).toBeGreaterThan(20);
  });
});

function points(columns: readonly { lower: number; upper: number }[]): number[][] {
  return columns.reduce<number[][]>(
    (made, { lower, upper }) => made.flatMap((x) => list(upper - lower + 1, (k) => [...x, lower + k])),
    [[]],
  );
}
