import { describe, expect, it } from 'vitest';
import { type Column, type Engine, highs, type Row, simplex, solve } from '../../solver/index.js';

/** What any engine must get right, small enough to work by hand. */
describe.each<[string, readonly Engine[] | undefined]>([
  ['javascript-lp-solver', [simplex]],
  ['highs', [highs]],
  ['as shipped', undefined],
])('linear programs, %s', (_, engines) => {
  const answer = (columns: Column[], rows: Row[]) => solve({ columns, rows }, engines ? { engines } : {});
  const optimum = async (columns: Column[], rows: Row[]) => {
    const found = await answer(columns, rows);
    return found.verdict === 'optimal' ? { cost: found.objective, x: { ...found.x }, y: { ...found.y } } : found;
  };

  it('nothing at all', async () => {
    expect(await optimum([], [])).toEqual({ cost: 0, x: {}, y: {} });
  });
  it('no rows', async () => {
    expect(await optimum([{ id: 'a', cost: 2, lower: 3 }], [])).toEqual({ cost: 6, x: { a: 3 }, y: {} });
    expect(await optimum([{ id: 'a', cost: -2, upper: 3 }], [])).toEqual({ cost: -6, x: { a: 3 }, y: {} });
    expect((await answer([{ id: 'a', cost: -2 }], [])).verdict).toBe('unbounded');
  });
  it('no columns', async () => {
    expect(await optimum([], [{ id: 'r', lower: -1, upper: 1, terms: {} }])).toEqual({ cost: 0, x: {}, y: { r: 0 } });
    expect((await answer([], [{ id: 'r', lower: 1, terms: {} }])).verdict).toBe('infeasible');
    expect((await answer([], [{ id: 'r', upper: -1, terms: {} }])).verdict).toBe('infeasible');
  });
  it('a row without terms: 0 ≥ 1 cannot be, 0 ≤ 1 can', async () => {
    expect((await answer([{ id: 'a', cost: 1 }], [{ id: 'r', lower: 1, terms: {} }])).verdict).toBe('infeasible');
    expect((await answer([{ id: 'a', cost: 1 }], [{ id: 'r', lower: 1, terms: { a: 0 } }])).verdict).toBe('infeasible');
    expect((await answer([{ id: 'a', cost: 1 }], [{ id: 'r', upper: 1, terms: {} }])).verdict).toBe('optimal');
  });
  it('a row without ends asks nothing', async () => {
    expect(await optimum([{ id: 'a', cost: 1 }], [{ id: 'r', terms: { a: 1 } }])).toEqual({
      cost: 0,
      x: { a: 0 },
      y: { r: 0 },
    });
  });
  it('open ends may be given as ±Infinity', async () => {
    const free = { lower: Number.NEGATIVE_INFINITY, upper: Number.POSITIVE_INFINITY };
    expect(await optimum([{ id: 'a', cost: 1, ...free }], [{ id: 'r', ...free, lower: -3, terms: { a: 1 } }])).toEqual({
      cost: -3,
      x: { a: -3 },
      y: { r: 1 },
    });
  });
  it('a column without a lower bound but with an upper one', async () => {
    const column = { id: 'a', cost: 1, lower: Number.NEGATIVE_INFINITY, upper: -2 };
    expect(await optimum([column], [{ id: 'r', lower: -10, terms: { a: 2 } }])).toEqual({
      cost: -5,
      x: { a: -5 },
      y: { r: 0.5 },
    });
    expect((await answer([column], [{ id: 'r', lower: 0, terms: { a: 1 } }])).verdict).toBe('infeasible');
    expect((await answer([column], [{ id: 'r', upper: 0, terms: { a: 1 } }])).verdict).toBe('unbounded');
  });
  it('a fixed column, alone in a row', async () => {
    const fixed = { id: 'a', cost: 5, lower: 2, upper: 2 };
    expect(await optimum([fixed], [{ id: 'r', lower: 1, terms: { a: 1 } }])).toEqual({
      cost: 10,
      x: { a: 2 },
      y: { r: 0 },
    });
    expect((await answer([fixed], [{ id: 'r', lower: 3, terms: { a: 1 } }])).verdict).toBe('infeasible');
  });
  it('a lower bound is where a column starts', async () => {
    expect(
      await optimum(
        [
          { id: 'a', cost: 1, lower: 2 },
          { id: 'b', cost: 3 },
        ],
        [{ id: 'r', lower: 5, upper: 6, terms: { a: 1, b: 1 } }],
      ),
    ).toEqual({ cost: 5, x: { a: 5, b: 0 }, y: { r: 1 } });
  });
  it('an equality may be pressed from either side', async () => {
    const rows = [{ id: 'r', lower: 4, upper: 4, terms: { a: 2 } }];
    expect(await optimum([{ id: 'a', cost: 3 }], rows)).toEqual({ cost: 6, x: { a: 2 }, y: { r: 1.5 } });
    expect(await optimum([{ id: 'a', cost: -3 }], rows)).toEqual({ cost: -6, x: { a: 2 }, y: { r: -1.5 } });
  });
  it('multipliers: ≥ 0 on a lower end, ≤ 0 on an upper one, and their sum is the bound', async () => {
    const found = await answer(
      [
        { id: 'a', cost: -1, upper: 9 },
        { id: 'b', cost: 2 },
      ],
      [
        { id: 'cap', upper: 4, terms: { a: 1 } },
        { id: 'need', lower: 6, terms: { a: 1, b: 1 } },
      ],
    );
    expect(found).toMatchObject({ verdict: 'optimal', objective: 0, bound: 0, boundBy: 'multipliers' });
    expect(found.verdict === 'optimal' && { ...found.y }).toEqual({ cap: -3, need: 2 });
  });
  it('a Farkas ray names the rows and ends that conflict', async () => {
    const found = await answer(
      [{ id: 'a', cost: 1 }],
      [
        { id: 'most', upper: 1, terms: { a: 1 } },
        { id: 'idle', upper: 9, terms: { a: 1 } },
        { id: 'least', lower: 2, terms: { a: 1 } },
      ],
    );
    if (found.verdict !== 'infeasible') throw new Error(found.verdict);
    expect(found.ray.most!).toBeLessThan(0);
    expect(found.ray.least!).toBeGreaterThan(0);
    expect(found.ray.idle!).toBe(0);
  });
  it('numbers from 1e-5 to 1e4 in one program', async () => {
    const found = await optimum(
      [
        { id: 'trace', cost: 40 },
        { id: 'bulk', cost: 0.01 },
      ],
      [
        { id: 'mo', lower: 1e-5, upper: 2e-5, terms: { trace: 390, bulk: 1e-7 } },
        { id: 'n', lower: 200, terms: { bulk: 460, trace: 1 } },
      ],
    );
    const bulk = 200 / 460;
    expect(found).toMatchObject({ x: { bulk: expect.closeTo(bulk, 6) } });
    expect('x' in found && found.x.trace! * 390 + found.x.bulk! * 1e-7).toBeGreaterThanOrEqual(1e-5 * (1 - 1e-6));
  });
});

describe('integer programs', () => {
  const whole = (id: string, cost: number, more: Partial<Column> = {}): Column => ({
    id,
    cost,
    integer: true,
    ...more,
  });

  it('packs: the cheapest whole number, its bound proved case by case', async () => {
    const found = await solve({
      columns: [whole('kilo', 5), whole('sack', 18)],
      rows: [{ id: 'need', lower: 7, terms: { kilo: 1, sack: 5 } }],
    });
    expect(found).toMatchObject({
      verdict: 'optimal',
      objective: 28,
      bound: 28,
      gap: 0,
      engine: 'highs',
      boundBy: 'cases',
    });
    expect(found.verdict === 'optimal' && { ...found.x }).toEqual({ kilo: 2, sack: 1 });
  });
  it('whole and divisible columns together', async () => {
    const found = await solve({
      columns: [whole('pack', 3, { upper: 9 }), { id: 'used', cost: 0 }],
      rows: [
        { id: 'need', lower: 1, terms: { used: 0.7 } },
        { id: 'stock', upper: 0, terms: { used: 1, pack: -1 } },
      ],
    });
    expect(found).toMatchObject({ verdict: 'optimal', objective: 6 });
  });
  it('an answer that is whole by itself keeps its proof by multipliers', async () => {
    const found = await solve({ columns: [whole('a', 1)], rows: [{ id: 'r', lower: 6, terms: { a: 2 } }] });
    expect(found).toMatchObject({ verdict: 'optimal', objective: 3, boundBy: 'multipliers' });
  });
  it('infeasible even in parts: a ray', async () => {
    const program = { columns: [whole('a', 1, { upper: 3 })], rows: [{ id: 'r', lower: 9, terms: { a: 2 } }] };
    const found = await solve(program);
    expect(found).toMatchObject({ verdict: 'infeasible', ray: { r: expect.any(Number) } });
    expect(found).not.toHaveProperty('cases');
  });
  it('infeasible only as whole numbers: a ray for each case', async () => {
    const found = await solve({
      columns: [whole('a', 1, { upper: 3 })],
      rows: [
        { id: 'least', lower: 1, terms: { a: 2 } },
        { id: 'most', upper: 2, terms: { a: 3 } },
      ],
    });
    expect(found).toMatchObject({ verdict: 'infeasible', ray: {}, engine: 'highs' });
    const cases = found.verdict === 'infeasible' ? found.cases! : [];
    expect(cases.map(({ bounds }) => ({ ...bounds }))).toEqual([{ a: { lower: 1 } }, { a: { upper: 0 } }]);
    // 1/2 ≤ a ≤ 2/3: a ≥ 1 is too much, a ≤ 0 too little
    expect(cases.map(({ ray }) => Object.keys(ray).filter((id) => ray[id] !== 0))).toEqual([['most'], ['least']]);
  });
  it('infeasible beyond proof by cases: said, not proved', async () => {
    const odd = Array.from({ length: 24 }, (_, j) => whole(`x${j}`, 1, { upper: 1 }));
    const terms = Object.fromEntries(odd.map(({ id }) => [id, 2]));
    // half a unit in parts, so that no divisor shows what branching would have to
    const rows = [{ id: 'odd', lower: 23, upper: 23, terms: { ...terms, part: 1 } }];
    const found = await solve({ columns: [...odd, { id: 'part', cost: 0, upper: 0.5 }], rows });
    expect(found).toMatchObject({ verdict: 'uncertified', claim: 'integer-infeasible' });
  });
  it('unbounded, from a whole point', async () => {
    const found = await solve({
      columns: [whole('a', -1), whole('b', 0.5)],
      rows: [{ id: 'r', lower: 1, upper: 3, terms: { a: 2, b: -2 } }],
    });
    expect(found.verdict).toBe('unbounded');
    expect(found.verdict === 'unbounded' && Number.isInteger(found.x.a)).toBe(true);
  });
  it('time that runs out leaves the best so far with an honest gap', async () => {
    const found = await solve(market(6, 50), { timeLimitSeconds: 0.3 });
    if (found.verdict === 'uncertified') {
      expect(found.best!.bound).toBeLessThan(found.best!.objective);
      expect(found.best!.gap).toBeGreaterThan(1e-6);
      expect(found.best!.violation).toBeLessThanOrEqual(1e-6);
    }
    expect(found.verdict).toBe('uncertified');
  });
  it('an engine that takes no integers is not asked for any', async () => {
    const program = { columns: [whole('a', 1)], rows: [{ id: 'r', lower: 1, terms: { a: 2 } }] };
    expect(await solve(program, { engines: [simplex] })).toMatchObject({
      verdict: 'uncertified',
      why: 'no engine takes integers',
    });
  });
});

/** A market split (Cornuejols and Dawande 1998): small, and far too hard for the time given. */
function market(rows: number, columns: number) {
  const by = (i: number, j: number) => (i * 7919 + j * 104729 + i * i * j * 31 + j * j * 613) % 100;
  const halves = Array.from({ length: rows }, (_, i) =>
    Math.floor(Array.from({ length: columns }, (_, j) => by(i, j)).reduce((a, b) => a + b) / 2),
  );
  return {
    columns: [
      ...Array.from({ length: columns }, (_, j): Column => ({ id: `x${j}`, cost: 0, upper: 1, integer: true })),
      ...halves.flatMap((_, i): Column[] => [
        { id: `over${i}`, cost: 1 },
        { id: `under${i}`, cost: 1 },
      ]),
    ],
    rows: halves.map(
      (half, i): Row => ({
        id: `m${i}`,
        lower: half,
        upper: half,
        terms: {
          ...Object.fromEntries(Array.from({ length: columns }, (_, j) => [`x${j}`, by(i, j)])),
          [`over${i}`]: -1,
          [`under${i}`]: 1,
        },
      }),
    ),
  };
}
