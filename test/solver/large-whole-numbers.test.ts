import { describe, expect, it } from 'vitest';
import { highs } from '../../solver/highs.js';
import { type Column, type LinearProgram, solve } from '../../solver/index.js';
import { byRemainders } from '../../solver/remainders.js';
import { tabulate } from '../../solver/table.js';
import { dice } from './dice.js';

const whole = (id: string, cost: number, more: Partial<Column> = {}): Column => ({ id, cost, integer: true, ...more });

/** The least cost by trying every point of a small box; undefined where none fits. */
function tried({ columns, rows }: LinearProgram): number | undefined {
  let least: number | undefined;
  const go = (at: number, x: number[], cost: number): void => {
    if (at < columns.length) {
      const { lower = 0, upper = 0 } = columns[at]!;
      for (let value = lower; value <= upper; value += 1) go(at + 1, [...x, value], cost + columns[at]!.cost * value);
      return;
    }
    const fits = rows.every(({ lower = -1e9, upper = 1e9, terms }) => {
      const sum = columns.reduce((total, { id }, j) => total + (terms[id] ?? 0) * x[j]!, 0);
      return sum >= lower && sum <= upper;
    });
    if (fits && (least === undefined || cost < least)) least = cost;
  };
  go(0, [], 0);
  return least;
}

describe('one row of whole numbers', () => {
  it('a point that a search lost is found: (8742, 147, 4, 1) keeps the row and costs 2.4e-5 less', async () => {
    const terms = { a: 8346, b: 4316, c: 1396, d: 3031 };
    const columns = [
      whole('a', 7794.307560451515),
      whole('b', 4107.273197662272),
      whole('c', 1506.613927989453),
      whole('d', 3328.9949554478753),
    ];
    const found = await solve({ columns, rows: [{ id: 'r', lower: 73603799, upper: 73603799, terms }] });
    if (found.verdict !== 'optimal') throw new Error(found.verdict);
    expect(found.boundBy).toBe('cases');
    const sum = Object.entries(terms).reduce((total, [id, by]) => total + BigInt(by) * BigInt(found.x[id]!), 0n);
    expect(sum).toBe(73603799n);
    expect(found.objective).toBeLessThan(68750961.31);
    expect(found.bound).toBeGreaterThan(68750961.31 * (1 - 1e-6));
  });

  it.each([43, 44])(
    'coins of 6, 9 and 20: 43 is the greatest sum they do not make (Frobenius number): %i',
    async (sum) => {
      const columns = [whole('six', 1), whole('nine', 1), whole('twenty', 1)];
      const rows = [{ id: 'sum', lower: sum, upper: sum, terms: { six: 6, nine: 9, twenty: 20 } }];
      const found = await solve({ columns, rows });
      expect(found.verdict).toBe(sum === 43 ? 'infeasible' : 'optimal');
      if (found.verdict === 'optimal') expect(found.objective).toBe(4);
    },
  );

  it('nothing costs less than the remainders prove, by trying every point of the box, for ends and signs of all kinds', async () => {
    const d = dice(20);
    let fitting = 0;
    for (let n = 0; n < 600; n += 1) {
      const columns = ['a', 'b', 'c'].slice(0, d.whole(2, 3)).map((id) => {
        const lower = d.pick([0, 0, -3, 2]);
        return whole(id, d.whole(-9, 20) / d.pick([1, 7]), { lower, upper: lower + d.whole(4, 12) });
      });
      const terms = Object.fromEntries(columns.map(({ id }) => [id, d.whole(-30, 90) || 7]));
      const end = d.whole(-100, 500);
      const row = d.pick([{ lower: end, upper: end }, { lower: end }, { upper: end }, { lower: end, upper: end + 3 }]);
      const program = { columns, rows: [{ id: 'r', ...row, terms }] };
      const root = await solve({ ...program, columns: columns.map((column) => ({ ...column, integer: false })) });
      if (root.verdict !== 'optimal') continue;
      const found = byRemainders(
        tabulate(program),
        columns.map(({ id }) => root.x[id]!),
      );
      const least = tried(program);
      if (!found || least === undefined) continue;
      expect(found.bound).toBeLessThanOrEqual(least + 1e-9);
      const fits = columns.every(({ lower, upper }, j) => found.x[j]! >= lower! && found.x[j]! <= upper!);
      const sum = columns.reduce((total, { id }, j) => total + terms[id]! * found.x[j]!, 0);
      if (!fits || sum < (row.lower ?? -1e9) || sum > (row.upper ?? 1e9)) continue;
      fitting += 1;
      expect(columns.reduce((total, { cost }, j) => total + cost * found.x[j]!, 0)).toBeCloseTo(least, 9);
      expect(found.bound).toBeCloseTo(least, 9);
    }
    expect(fitting).toBeGreaterThan(100);
  });
});

describe("a search's word where whole numbers run high", () => {
  // 2 · 10⁷ units a row; (1,000, 1,000, 0) costs least, (1,001, 998, 1) as the second equality allows a third more
  const columns = [whole('x', 1000), whole('y', 1000), whole('z', 1100)];
  const rows = [
    { id: 'r', lower: 20_000_000, upper: 20_000_000, terms: { x: 9999, y: 10001, z: 10003 } },
    { id: 's', lower: 2000, upper: 2000, terms: { x: 1, y: 1, z: 1 } },
  ];
  const worse = { claim: 'integer' as const, x: [1001, 998, 1], bound: 2_000_100, ended: true };

  it('is asked again for less: an answer that another beats is not certified', async () => {
    const careless = {
      ...highs,
      solve: (...[table, limits]: Parameters<typeof highs.solve>) =>
        table.integer.some(Boolean) && table.rows.length === 2 ? worse : highs.solve(table, limits),
    };
    const found = await solve({ columns, rows }, { engines: [careless], mostCases: 0 });
    expect(found).toMatchObject({ verdict: 'optimal', x: { x: 1000, y: 1000, z: 0 }, objective: 2_000_000 });
  });

  it('does not carry a verdict where the second search does not end', async () => {
    const silent = {
      ...highs,
      solve: (...[table, limits]: Parameters<typeof highs.solve>) =>
        table.rows.length === 3
          ? { claim: 'none' as const, why: 'no time', spent: true }
          : table.integer.some(Boolean)
            ? worse
            : highs.solve(table, limits),
    };
    const found = await solve({ columns, rows }, { engines: [silent], mostCases: 0 });
    expect(found).toMatchObject({ verdict: 'uncertified', unfinished: true, best: { x: { x: 1001, y: 998, z: 1 } } });
  });
});
