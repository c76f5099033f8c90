import { describe, expect, it } from 'vitest';
import {
  costRange,
  entryPrice,
  highs,
  type LinearProgram,
  type Optimal,
  reach,
  type Side,
  shadowPrice,
  solve,
} from '../../solver/index.js';
import { blend, type Kind } from './blends.js';

const wyndor: LinearProgram = {
  columns: [
    { id: 'doors', cost: -3 },
    { id: 'windows', cost: -5 },
  ],
  rows: [
    { id: 'plant 1', upper: 4, terms: { doors: 1 } },
    { id: 'plant 2', upper: 12, terms: { windows: 2 } },
    { id: 'plant 3', upper: 18, terms: { doors: 3, windows: 2 } },
  ],
};

/** Published for the maximisation of 3 doors + 5 windows; costs here are profits with the sign turned. */
describe('Wyndor Glass (Hillier and Lieberman; from memory)', () => {
  it('shadow prices 0, 1.5, 1; b1 from 2 up, b2 in [6, 18], b3 in [12, 24]', async () => {
    const price = async (row: string) => {
      const found = await shadowPrice(wyndor, row, 'upper');
      return found.verdict === 'price'
        ? { end: found.end, left: rounded(found.left), right: rounded(found.right) }
        : found;
    };
    expect(await price('plant 1')).toEqual({ end: 4, left: { price: 0, limit: 2 }, right: { price: 0, limit: null } });
    expect(await price('plant 2')).toEqual({
      end: 12,
      left: { price: -1.5, limit: 6 },
      right: { price: -1.5, limit: 18 },
    });
    expect(await price('plant 3')).toEqual({
      end: 18,
      left: { price: -1, limit: 12 },
      right: { price: -1, limit: 24 },
    });
  });
  it('profit of doors in [0, 7.5], of windows from 2 up', async () => {
    const { x } = await best(wyndor);
    expect(await costRange(wyndor, 'doors', x)).toMatchObject({ lowest: -7.5, highest: 0 });
    expect(await costRange(wyndor, 'windows', x)).toMatchObject({ lowest: null, highest: -2 });
  });
  it('between 0 and 8 products', async () => {
    expect(await reach(wyndor, { doors: 1, windows: 1 })).toMatchObject({
      verdict: 'reach',
      lowest: { value: 0 },
      highest: { value: 8 },
    });
  });
});

describe('worked by hand', () => {
  it('left and right differ where the answer is degenerate', async () => {
    // at need = 2 the cheap product is just used up: one unit less saves 1, one more costs 3
    const program: LinearProgram = {
      columns: [
        { id: 'cheap', cost: 1, upper: 2 },
        { id: 'dear', cost: 3, upper: 5 },
      ],
      rows: [{ id: 'need', lower: 2, terms: { cheap: 1, dear: 1 } }],
    };
    expect(await shadowPrice(program, 'need', 'lower')).toEqual({
      verdict: 'price',
      end: 2,
      left: { price: 1, limit: 0 },
      right: { price: 3, limit: 7 },
    });
  });
  it('no room to move: null', async () => {
    const program: LinearProgram = {
      columns: [{ id: 'a', cost: 1, upper: 2 }],
      rows: [{ id: 'need', lower: 2, terms: { a: 1 } }],
    };
    expect(await shadowPrice(program, 'need', 'lower')).toEqual({
      verdict: 'price',
      end: 2,
      left: { price: 1, limit: 0 },
      right: { price: null, limit: 2 },
    });
  });
  it('an equality moves as a whole, without limit where nothing stops it', async () => {
    const program: LinearProgram = {
      columns: [
        { id: 'a', cost: 2 },
        { id: 'b', cost: 5 },
      ],
      rows: [
        { id: 'sum', lower: 4, upper: 4, terms: { a: 1, b: 1 } },
        { id: 'most', upper: 3, terms: { a: 1 } },
      ],
    };
    expect(await shadowPrice(program, 'sum', 'upper')).toEqual({
      verdict: 'price',
      end: 4,
      left: { price: 5, limit: 3 },
      right: { price: 5, limit: null },
    });
  });
  it('the other end of a row stops a move', async () => {
    const program: LinearProgram = {
      columns: [{ id: 'a', cost: 2 }],
      rows: [{ id: 'band', lower: 3, upper: 6, terms: { a: 1 } }],
    };
    expect(await shadowPrice(program, 'band', 'lower')).toEqual({
      verdict: 'price',
      end: 3,
      left: { price: 2, limit: 0 },
      right: { price: 2, limit: 6 },
    });
    expect(await shadowPrice(program, 'band', 'upper')).toEqual({
      verdict: 'price',
      end: 6,
      left: { price: 0, limit: 3 },
      right: { price: 0, limit: null },
    });
  });
  it('the price at which an unused product enters', async () => {
    const program: LinearProgram = {
      columns: [
        { id: 'used', cost: 4 },
        { id: 'idle', cost: 9 },
        { id: 'barred', cost: 9, upper: 0 },
      ],
      rows: [{ id: 'need', lower: 10, terms: { used: 2, idle: 3, barred: 3 } }],
    };
    const { x } = await best(program);
    expect(await entryPrice(program, 'idle', x)).toEqual({ verdict: 'price', cost: 6 });
    expect(await entryPrice(program, 'barred', x)).toEqual({ verdict: 'price', cost: null });
    expect(await costRange(program, 'used', x)).toMatchObject({ lowest: 0, highest: 6 });
  });
  it.each<Kind>(['loose', 'tight', 'random', 'degenerate'])(
    '%s: the multipliers of the answer find the same entry prices',
    async (kind) => {
      let found = 0;
      for (let seed = 1; seed <= 8; seed += 1) {
        const program = blend(seed, kind === 'tight' ? 60 : 12, kind);
        const answer = await solve(program);
        if (answer.verdict !== 'optimal') continue;
        for (const { id, lower } of program.columns.filter(({ id }) => answer.x[id] === 0).slice(0, 4)) {
          expect(lower ?? 0).toBe(0);
          const [by, anew] = [
            await entryPrice(program, id, answer.x, answer.y),
            await entryPrice(program, id, answer.x),
          ];
          if (anew.verdict !== 'price' || by.verdict !== 'price') throw new Error(`${kind} ${seed} ${id}`);
          if (anew.cost === null) expect(by.cost, `${kind} ${seed} ${id}`).toBeNull();
          // to the millionth that it promises, and the rounding of the answer
          else
            expect(
              Math.abs(by.cost! - anew.cost) / Math.max(1e-6, Math.abs(anew.cost)),
              `${kind} ${seed} ${id}`,
            ).toBeLessThan(3e-6);
          found += 1;
        }
      }
      expect(found).toBeGreaterThan(3);
    },
  );
  it('reach: what limits it, no limit, no point', async () => {
    const program: LinearProgram = {
      columns: [{ id: 'a', cost: 7 }],
      rows: [{ id: 'most', upper: 6, terms: { a: 2 } }],
    };
    expect(await reach(program, { a: 4 })).toMatchObject({
      highest: { value: 12, y: { most: 2 } },
      lowest: { value: 0, y: { most: 0 } },
    });
    expect(await reach({ ...program, rows: [] }, { a: 4 })).toMatchObject({
      highest: { value: null },
      lowest: { value: 0 },
    });
    expect(await reach({ ...program, rows: [{ id: 'no', lower: 1, terms: {} }] }, { a: 4 })).toMatchObject({
      verdict: 'infeasible',
    });
  });
  it('refusals', async () => {
    await expect(costRange(wyndor, 'gates', {})).rejects.toThrow('there is no column "gates"');
    await expect(shadowPrice(wyndor, 'plant 1', 'lower')).rejects.toThrow('row "plant 1" has no lower end');
    await expect(shadowPrice(wyndor, 'plant 9', 'upper')).rejects.toThrow('row "plant 9" has no upper end');
    const whole = { ...wyndor, columns: wyndor.columns.map((c) => ({ ...c, integer: true })) };
    await expect(costRange(whole, 'doors', {})).rejects.toThrow('cost ranges are for programs without integer columns');
    await expect(shadowPrice(whole, 'plant 1', 'upper')).rejects.toThrow(
      'shadow prices are for programs without integer columns',
    );
    const endless = { ...wyndor, rows: wyndor.rows.slice(0, 1) };
    await expect(shadowPrice(endless, 'plant 1', 'upper')).rejects.toThrow(
      'there is no best answer: the program is unbounded',
    );
  });
});

/** Random blends with an answer: what was said about a range is checked by solving at its end and beyond. */
describe.each<Kind>(['loose', 'random', 'degenerate'])('ranges of %s blends, re-solved', (kind) => {
  const made = Array.from({ length: 40 }, (_, n) => blend(55_000 + n, 5 + (n % 18), kind));

  it('costs: best up to the end, beaten beyond it', async () => {
    let checked = 0;
    for (const program of made) {
      const answer = await solve(program);
      if (answer.verdict !== 'optimal') continue;
      for (const { id, cost } of program.columns.slice(0, 6)) {
        const range = await costRange(program, id, answer.x);
        if (range.verdict !== 'range') throw new Error(range.why);
        const at = (c: number) => ({
          ...program,
          columns: program.columns.map((col) => (col.id === id ? { ...col, cost: c } : col)),
        });
        const here = (c: number) => at(c).columns.reduce((sum, col) => sum + col.cost * answer.x[col.id]!, 0);
        for (const [end, rival, sign] of [
          [range.lowest, range.cheaper, -1],
          [range.highest, range.dearer, 1],
        ] as const) {
          // beyond: far enough that the difference stands clear of the certificate's 1e-6, for the rival uses the column by as much
          const step = Math.max(Math.abs(end ?? cost), 0.01) * (end === null ? 1000 : 0.01);
          const inside = await solve(at(end ?? cost + sign * step));
          expect(inside.verdict).toBe('optimal');
          if (inside.verdict !== 'optimal') continue;
          expect(here(end ?? cost + sign * step) - inside.objective).toBeLessThanOrEqual(
            2e-6 * Math.max(Math.abs(inside.objective), 1e-3),
          );
          if (end === null || !rival) continue;
          const beyond = at(end + sign * step);
          const cheaper = beyond.columns.reduce((sum, col) => sum + col.cost * rival[col.id]!, 0);
          expect(cheaper).toBeLessThan(here(end + sign * step));
          checked += 1;
        }
      }
    }
    expect(checked).toBeGreaterThan(20);
  });

  it('shadow prices: the cost follows the price to the limit, and leaves it beyond', async () => {
    let checked = 0;
    for (const program of made) {
      // the multipliers of the other engine, which took no part in the prices
      const answer = await solve(program, { engines: [highs] });
      if (answer.verdict !== 'optimal') continue;
      for (const row of program.rows.slice(0, 5)) {
        for (const end of ['lower', 'upper'] as const) {
          if (row[end] === undefined) continue;
          const price = await shadowPrice(program, row.id, end);
          if (price.verdict !== 'price') throw new Error(price.why);
          const whole = row.lower === row.upper;
          const at = (b: number) => ({
            ...program,
            rows: program.rows.map((r) =>
              r.id === row.id ? { ...r, ...(whole ? { lower: b, upper: b } : { [end]: b }) } : r,
            ),
          });
          const y = whole
            ? answer.y[row.id]!
            : end === 'lower'
              ? Math.max(0, answer.y[row.id]!)
              : Math.min(0, answer.y[row.id]!);
          const size = Math.max(answer.objective, 1e-3) / Math.max(Math.abs(row[end]!), 1e-3);
          // any multiplier lies between the two prices; where they are one, it is that one
          if (price.left.price !== null) expect(price.left.price).toBeLessThanOrEqual(y + 1e-5 * size);
          if (price.right.price !== null) expect(price.right.price).toBeGreaterThanOrEqual(y - 1e-5 * size);
          for (const [side, sign] of [
            [price.left, -1],
            [price.right, 1],
          ] as const) {
            checked += await follows(side, sign, row[end]!, answer.objective, at);
          }
        }
      }
    }
    expect(checked).toBeGreaterThan(50);
  });
});

async function follows(
  side: Side,
  sign: 1 | -1,
  b: number,
  cost: number,
  at: (b: number) => LinearProgram,
): Promise<number> {
  const far = side.limit ?? b + sign * Math.max(1, Math.abs(b)) * 10;
  if (side.price !== null) {
    for (const part of [0.5, 0.999]) {
      const there = b + part * (far - b);
      const answer = await solve(at(there));
      expect(answer.verdict).toBe('optimal');
      if (answer.verdict !== 'optimal') continue;
      const predicted = cost + side.price * (there - b);
      expect(Math.abs(answer.objective - predicted)).toBeLessThanOrEqual(
        1e-5 * Math.max(Math.abs(predicted), Math.abs(cost), 1e-3),
      );
    }
  }
  if (side.limit === null) return 0;
  const step = Math.max(Math.abs(side.limit - b), 0.05 * Math.abs(b), 1e-3);
  const beyond = side.limit + sign * step;
  const answer = await crossed(at, beyond);
  if (answer === undefined || answer.verdict !== 'optimal') return 1;
  const predicted = cost + (side.price ?? 0) * (beyond - b);
  expect(answer.objective).toBeGreaterThan(predicted);
  return 1;
}

/** Beyond the row's own other end there is no program to solve. */
async function crossed(at: (b: number) => LinearProgram, b: number) {
  const program = at(b);
  return program.rows.some(({ lower, upper }) => (lower ?? -Infinity) > (upper ?? Infinity))
    ? undefined
    : solve(program);
}

async function best(program: LinearProgram): Promise<Optimal> {
  const answer = await solve(program);
  if (answer.verdict !== 'optimal') throw new Error(answer.verdict);
  return answer;
}

/** Nine decimals: what is left after a few pivots in doubles. */
function rounded({ price, limit }: Side): Side {
  const nine = (v: number | null) => (v === null ? null : Number(v.toFixed(9)) + 0);
  return { price: nine(price), limit: nine(limit) };
}
