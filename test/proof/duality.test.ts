import { expect, it } from 'vitest';
import type { Column, LinearProgram } from '../../solver/index.js';
import { plus, type Ratio, ratioOf, times } from './dyadic.js';
import { exact } from './exact.js';
import { programOf } from './examine.js';
import { families } from './families/index.js';

const EACH = 4;

/** y+ on lower ends, y− on upper ends of rows and bounds; its doubles are those of the program, so nothing is rounded. */
function dualOf({ columns, rows }: LinearProgram): LinearProgram {
  const duals: Column[] = [];
  const terms = columns.map((): Record<string, number> => ({}));
  const press = (id: string, ends: { lower?: number; upper?: number }, entries: readonly [number, number][]) => {
    for (const [side, sign] of [
      ['lower', 1],
      ['upper', -1],
    ] as const) {
      const end = ends[side];
      if (end === undefined || !Number.isFinite(end)) continue;
      duals.push({ id: `${id} ${side}`, cost: -sign * end });
      for (const [j, by] of entries) terms[j]![`${id} ${side}`] = sign * by;
    }
  };
  const position = new Map(columns.map(({ id }, j) => [id, j]));
  for (const row of rows)
    press(
      `row ${row.id}`,
      row,
      Object.entries(row.terms).map(([id, by]) => [position.get(id)!, by]),
    );
  for (const [j, column] of columns.entries())
    press(`column ${column.id}`, { ...column, lower: column.lower ?? 0 }, [[j, 1]]);
  return {
    columns: duals,
    rows: columns.map(({ id, cost }, j) => ({ id, lower: cost, upper: cost, terms: terms[j]! })),
  };
}

const isWithin = (value: Ratio, { lower, upper }: { lower?: number; upper?: number }) =>
  [lower, upper].every((end, side) => {
    if (end === undefined || !Number.isFinite(end)) return true;
    const { num, den } = ratioOf(end);
    const over = value.num * den - num * value.den;
    return side === 0 ? over >= 0n : over <= 0n;
  });

it('the exact simplex proves itself: its point keeps every row, and the dual program comes to the same fraction', () => {
  const seen = { optimal: 0, infeasible: 0, unbounded: 0, unknown: 0 };
  const faults: string[] = [];
  for (const family of families) {
    for (let number = 1; number <= EACH; number += 1) {
      const made = programOf(family, number);
      const program = { ...made, columns: made.columns.map((column) => ({ ...column, integer: false })) };
      const [found, dual] = [exact(program), exact(dualOf(program))];
      seen[found.status] += 1;
      const fault = (what: string) => faults.push(`${family.name} #${number}: ${what}`);
      if (found.status !== 'optimal') {
        const expected = found.status === 'unbounded' ? ['infeasible'] : ['infeasible', 'unbounded'];
        if (!expected.includes(dual.status)) fault(`${found.status}, its dual ${dual.status}`);
        continue;
      }
      const value = new Map(program.columns.map(({ id }, j) => [id, found.x[j]!]));
      const activity = (terms: Record<string, number>) =>
        Object.entries(terms).reduce((sum, [id, by]) => plus(sum, times(ratioOf(by), value.get(id)!)), ratioOf(0));
      for (const row of program.rows) if (!isWithin(activity(row.terms), row)) fault(`row ${row.id} is missed`);
      for (const { id, lower = 0, upper } of program.columns)
        if (!isWithin(value.get(id)!, upper === undefined ? { lower } : { lower, upper })) fault(`column ${id} is out`);
      const sum = dual.status === 'optimal' ? plus(found.objective, dual.objective) : undefined;
      if (sum?.num !== 0n) fault('its dual comes to something else');
    }
  }
  expect(faults).toEqual([]);
  expect(seen.optimal).toBeGreaterThan(100);
  expect(Math.min(seen.infeasible, seen.unbounded)).toBeGreaterThan(10);
  expect(seen.unknown).toBe(0);
});
