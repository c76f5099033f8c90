import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type LinearProgram, solve, type Verdict } from '../../solver/index.js';
import { blend, type Kind } from './blends.js';
import { dice } from './dice.js';

const program = fc
  .record({
    seed: fc.integer({ min: 1, max: 1e9 }),
    products: fc.integer({ min: 3, max: 30 }),
    // of tight and degenerate programs few have an answer, of conflicts none
    kind: fc.constantFrom<Kind>('loose', 'loose', 'random', 'random', 'tight', 'degenerate', 'conflict'),
  })
  .map(({ seed, products, kind }) => ({ seed, made: blend(seed, products, kind) }));

const RUNS = { numRuns: 120, seed: 1945 };
/** Twice the certificate's 1e-6: each of the two answers may be off by that much. */
const SAME = 2e-6;

/** Of the runs, so many at least must have an optimum to compare; a generator that makes only conflicts proves nothing. */
const COMPARED = 40;

/** For every program, `change` keeps the verdict and, but for `factor`, the cost; where it finds nothing to change (null) there is nothing to see. */
async function law(change: (p: LinearProgram, seed: number) => { program: LinearProgram; factor?: number } | null) {
  let compared = 0;
  await fc.assert(
    fc.asyncProperty(program, async ({ seed, made }) => {
      const changed = change(made, seed);
      fc.pre(changed !== null);
      const { program: other, factor = 1 } = changed!;
      const [before, after] = [await solve(made), await solve(other)];
      expect(after.verdict).toBe(before.verdict);
      if (before.verdict === 'optimal' && after.verdict === 'optimal') {
        expectSame(after.objective, factor * before.objective);
        compared += 1;
      }
    }),
    RUNS,
  );
  expect(compared).toBeGreaterThanOrEqual(COMPARED);
}

function expectSame(a: number, b: number) {
  expect(Math.abs(a - b)).toBeLessThanOrEqual(SAME * Math.max(Math.abs(a), Math.abs(b)) + 1e-12);
}

function costOf(verdict: Verdict): number {
  return verdict.verdict === 'optimal'
    ? verdict.objective
    : verdict.verdict === 'infeasible'
      ? Number.POSITIVE_INFINITY
      : Number.NaN;
}

describe('laws that hold whatever the program', () => {
  it('a column that the answer leaves at 0 may go', async () => {
    await fc.assert(
      fc.asyncProperty(program, async ({ made }) => {
        const before = await solve(made);
        const unused = before.verdict === 'optimal' ? made.columns.find(({ id }) => before.x[id] === 0) : undefined;
        fc.pre(unused !== undefined);
        const without = {
          columns: made.columns.filter((column) => column !== unused),
          rows: made.rows.map((row) => ({
            ...row,
            terms: Object.fromEntries(Object.entries(row.terms).filter(([id]) => id !== unused!.id)),
          })),
        };
        expectSame(costOf(await solve(without)), costOf(before));
      }),
      RUNS,
    );
  });

  it('a column given twice, without a ceiling, changes nothing', () =>
    law((p) => {
      const twin = p.columns.find(({ upper }) => upper === undefined);
      if (!twin) return null;
      const rows = p.rows.map((row) =>
        Object.hasOwn(row.terms, twin.id) ? { ...row, terms: { ...row.terms, twin: row.terms[twin.id]! } } : row,
      );
      return { program: { columns: [...p.columns, { ...twin, id: 'twin' }], rows } };
    }));

  it('a row given twice changes nothing', () =>
    law((p) => ({ program: { ...p, rows: [...p.rows, { ...p.rows[0]!, id: 'again' }] } })));

  it('a slacker row never costs more', async () => {
    await fc.assert(
      fc.asyncProperty(program, async ({ seed, made }) => {
        const at = dice(seed).whole(0, made.rows.length - 1);
        const slack = made.rows.map((row, i) => {
          if (i !== at) return row;
          const { lower, upper } = row;
          return {
            ...row,
            ...(lower === undefined ? {} : { lower: lower * 0.9 }),
            ...(upper === undefined ? {} : { upper: upper * 1.1 }),
          };
        });
        const [before, after] = [costOf(await solve(made)), costOf(await solve({ ...made, rows: slack }))];
        // a conflict costs infinitely much
        expect(after).toBeLessThanOrEqual(before * (1 + SAME) + 1e-12);
      }),
      RUNS,
    );
  });

  it('the order of columns and rows does not matter', () =>
    law((p, seed) => {
      const d = dice(seed);
      const shuffled = <T>(items: readonly T[]) =>
        items
          .map((item) => [d.unit(), item] as const)
          .sort((a, b) => a[0] - b[0])
          .map(([, item]) => item);
      return { program: { columns: shuffled(p.columns), rows: shuffled(p.rows) } };
    }));

  it('a row in other units changes nothing', () =>
    law((p, seed) => {
      const d = dice(seed);
      const rows = p.rows.map(({ id, lower, upper, terms }) => {
        const by = 10 ** d.whole(-4, 4);
        return {
          id,
          ...(lower === undefined ? {} : { lower: lower * by }),
          ...(upper === undefined ? {} : { upper: upper * by }),
          terms: Object.fromEntries(Object.entries(terms).map(([column, a]) => [column, a * by])),
        };
      });
      return { program: { ...p, rows } };
    }));

  it('a column in other units changes nothing', () =>
    law((p, seed) => {
      const d = dice(seed);
      const by = new Map(p.columns.map(({ id }) => [id, 10 ** d.whole(-3, 3)]));
      return {
        program: {
          columns: p.columns.map(({ id, cost, upper }) => ({
            id,
            cost: cost * by.get(id)!,
            ...(upper === undefined ? {} : { upper: upper / by.get(id)! }),
          })),
          rows: p.rows.map((row) => ({
            ...row,
            terms: Object.fromEntries(Object.entries(row.terms).map(([id, a]) => [id, a * by.get(id)!])),
          })),
        },
      };
    }));

  it('other money, other cost', () =>
    law((p) => ({ program: { ...p, columns: p.columns.map((c) => ({ ...c, cost: c.cost * 250 })) }, factor: 250 })));

  it('twice the need and twice the ceilings cost twice as much', () =>
    law((p) => {
      const twice = <T extends { lower?: number; upper?: number }>(item: T): T => ({
        ...item,
        ...(item.lower === undefined ? {} : { lower: item.lower * 2 }),
        ...(item.upper === undefined ? {} : { upper: item.upper * 2 }),
      });
      return { program: { columns: p.columns.map(twice), rows: p.rows.map(twice) }, factor: 2 };
    }));

  it('the same program twice gives the same answer to the last digit', async () => {
    await fc.assert(
      fc.asyncProperty(program, async ({ made }) => {
        expect(JSON.stringify(await solve(made))).toBe(JSON.stringify(await solve(structuredClone(made))));
      }),
      RUNS,
    );
  });
});
