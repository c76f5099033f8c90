import { describe, expect, it } from 'vitest';
import {
  boundsAsRows,
  conflict,
  type LinearProgram,
  leastRelaxation,
  singleRelaxations,
  solve,
} from '../../solver/index.js';
import { blend, type Kind } from './blends.js';
import { independent } from './independent.js';

/** Seeded programs whose rows conflict, with the rows that were named. */
async function conflicts(kind: Kind, wanted: number, first: number) {
  const found: { seed: number; program: LinearProgram; rows: string[]; irreducible: boolean }[] = [];
  for (let seed = first; found.length < wanted; seed += 1) {
    const program = blend(seed, 6 + (seed % 25), kind);
    const answer = await conflict(program);
    if (answer.verdict === 'none') continue;
    if (answer.verdict === 'uncertified') throw new Error(`${seed}: ${answer.why}`);
    found.push({ seed, program, rows: answer.rows.map(({ id }) => id), irreducible: answer.irreducible });
  }
  return found;
}

describe('the rows that conflict', () => {
  it.each([
    ['tight', 100],
    ['conflict', 100],
    ['degenerate', 100],
    ['random', 50],
  ] as const)(
    'of %s blends (%i of them): together they conflict, without any one they do not, by an independent run too',
    async (kind, wanted) => {
      for (const { seed, program, rows, irreducible } of await conflicts(kind, wanted, 77_000)) {
        expect(irreducible, `${seed}`).toBe(true);
        const only = (ids: string[]) => ({
          columns: program.columns.map((c) => ({ ...c, cost: 0 })),
          rows: program.rows.filter(({ id }) => ids.includes(id)),
        });
        expect((await independent(only(rows))).status, `${seed}`).toBe('infeasible');
        for (const row of rows) {
          expect((await independent(only(rows.filter((id) => id !== row)))).status, `${seed} without ${row}`).toBe(
            'optimal',
          );
        }
      }
    },
  );

  it('no conflict, no rows', async () => {
    expect(
      await conflict({ columns: [{ id: 'a', cost: -1 }], rows: [{ id: 'r', lower: 1, terms: { a: 1 } }] }),
    ).toEqual({ verdict: 'none' });
  });

  it('the ends that press, and nothing that only looks on', async () => {
    const program: LinearProgram = {
      columns: [
        { id: 'a', cost: 1 },
        { id: 'b', cost: 1 },
      ],
      rows: [
        { id: 'sum', lower: 5, upper: 9, terms: { a: 1, b: 1 } },
        { id: 'a only', lower: 0, upper: 2, terms: { a: 1 } },
        { id: 'b only', upper: 2, terms: { b: 1 } },
        { id: 'idle', lower: 1, terms: { a: 1 } },
      ],
    };
    const answer = await conflict(program);
    expect(answer).toMatchObject({
      verdict: 'conflict',
      irreducible: true,
      rows: [
        { id: 'sum', end: 'lower' },
        { id: 'a only', end: 'upper' },
        { id: 'b only', end: 'upper' },
      ],
    });
  });

  it('a ceiling takes part once it is a row', async () => {
    const program: LinearProgram = {
      columns: [{ id: '__proto__', cost: 1, upper: 2 }],
      rows: [{ id: 'need', lower: 3, terms: JSON.parse('{"__proto__": 1}') }],
    };
    expect(await conflict(program)).toMatchObject({ rows: [{ id: 'need', end: 'lower' }] });
    const answer = await conflict(boundsAsRows(program, (id) => `at most ${id}`));
    expect(answer).toMatchObject({
      rows: [
        { id: 'need', end: 'lower' },
        { id: 'at most __proto__', end: 'upper' },
      ],
      irreducible: true,
    });
  });

  it('bounds as rows change no answer', async () => {
    let compared = 0;
    for (let seed = 1; seed <= 60; seed += 1) {
      const program = blend(seed, 12, 'random');
      const [a, b] = [await solve(program), await solve(boundsAsRows(program, (id) => `cap ${id}`))];
      expect(b.verdict).toBe(a.verdict);
      if (a.verdict === 'optimal' && b.verdict === 'optimal') {
        expect(Math.abs(a.objective - b.objective)).toBeLessThanOrEqual(2e-6 * a.objective);
        compared += 1;
      }
    }
    expect(compared).toBeGreaterThan(20);
  });
});

describe('the cheapest way to make room', () => {
  const program: LinearProgram = {
    columns: [{ id: 'a', cost: 1 }],
    rows: [
      { id: 'least', lower: 10, terms: { a: 1 } },
      { id: 'most', upper: 4, terms: { a: 1 } },
    ],
  };

  it('moves the row that is cheaper to move', async () => {
    expect(
      await leastRelaxation(
        program,
        new Map([
          ['least', 1],
          ['most', 2],
        ]),
      ),
    ).toMatchObject({
      verdict: 'relaxed',
      total: 6,
      moves: [{ row: 'least', end: 'lower', by: 6, to: 4 }],
    });
    expect(
      await leastRelaxation(
        program,
        new Map([
          ['least', 3],
          ['most', 2],
        ]),
      ),
    ).toMatchObject({
      total: 12,
      moves: [{ row: 'most', end: 'upper', by: 6, to: 10 }],
      x: { a: 10 },
    });
  });
  it('one row alone, for each', async () => {
    const answers = await singleRelaxations(
      { ...program, rows: [...program.rows, { id: 'other', upper: 20, terms: { a: 1 } }] },
      ['least', 'most', 'other'],
    );
    expect(answers).toMatchObject([
      { row: 'least', relaxation: { verdict: 'relaxed', total: 6 } },
      { row: 'most', relaxation: { verdict: 'relaxed', total: 6 } },
      { row: 'other', relaxation: { verdict: 'impossible' } },
    ]);
  });
  it('nothing moves where nothing must', async () => {
    expect(await leastRelaxation({ ...program, rows: program.rows.slice(1) }, new Map([['most', 1]]))).toMatchObject({
      total: 0,
      moves: [],
    });
  });
  it('refuses a weight that is no weight and a row that is no row', async () => {
    await expect(leastRelaxation(program, new Map([['least', 0]]))).rejects.toThrow(
      'the weight of row "least" is 0; it must be above 0',
    );
    await expect(leastRelaxation(program, new Map([['leest', 1]]))).rejects.toThrow('there is no row "leest" to move');
  });
  it('on 120 random conflicts: the moved rows can be kept, and anything less cannot', async () => {
    for (const { seed, program: made } of await conflicts('tight', 120, 88_000)) {
      const weights = new Map(
        made.rows.map((row) => [row.id, 1 / Math.max(Math.abs(row.lower ?? 0), Math.abs(row.upper ?? 0), 1e-3)]),
      );
      const answer = await leastRelaxation(made, weights);
      expect(answer.verdict, `${seed}`).toBe('relaxed');
      if (answer.verdict !== 'relaxed') continue;
      const moved = (part: number) => ({
        ...made,
        rows: made.rows.map((row) => {
          const own = answer.moves.filter((m) => m.row === row.id);
          return { ...row, ...Object.fromEntries(own.map((m) => [m.end, row[m.end]! + part * (m.to - row[m.end]!)])) };
        }),
      });
      // a hair more than the least, so that rounding does not decide
      expect((await solve(moved(1 + 1e-6))).verdict, `${seed}`).toBe('optimal');
      expect((await solve(moved(0.99))).verdict, `${seed}`).toBe('infeasible');
    }
  });
});
