import { describe, expect, it } from 'vitest';
import type { LinearProgram } from '../../solver/index.js';
import { exact } from './exact.js';
import { faultAgainst, faultOf, type Said } from './judge.js';

/** a + b ≥ 10, a ≤ 4: the optimum is a = 4, b = 6, cost 16. */
const program: LinearProgram = {
  columns: [
    { id: 'a', cost: 1, upper: 4 },
    { id: 'b', cost: 2 },
  ],
  rows: [{ id: 'sum', lower: 10, terms: { a: 1, b: 1 } }],
};
const truth = exact(program);
const optimal = (a: number, b: number, extra: { objective?: number; bound?: number } = {}): Said => ({
  verdict: 'optimal',
  x: [a, b],
  objective: a + 2 * b,
  ...extra,
});

describe('the judge', () => {
  it.each<[string, Said, RegExp]>([
    ['a dearer answer', optimal(3.75, 6.25), /costs 16.25, the optimum is 16/],
    ['a row missed', optimal(4, 5.99), /row sum is missed/],
    ['a column out of its bounds', optimal(4.5, 5.5), /column a is 4.5/],
    ['costs that do not add up', optimal(4, 6, { objective: 15.99 }), /do not add up/],
    ['a bound above the optimum', optimal(4, 6, { bound: 16.1 }), /nothing costs less than 16.1/],
    ['an answer that is no number', optimal(Number.NaN, 6), /out of its bounds/],
    ['a claim that nothing fits', { verdict: 'infeasible' }, /said infeasible, is optimal/],
    ['a claim that costs fall for ever', { verdict: 'unbounded' }, /said unbounded, is optimal/],
  ])('sees %s', (_, claim, fault) => {
    expect(faultOf(program, truth, claim)).toMatch(fault);
  });

  it('lets pass what is right, what the tolerance allows and what claims nothing', () => {
    expect(faultOf(program, truth, optimal(4, 6))).toBeUndefined();
    expect(faultOf(program, truth, optimal(4, 6 - 9e-6))).toBeUndefined();
    expect(faultOf(program, truth, { verdict: 'uncertified' })).toBeUndefined();
  });

  it('asks the program with its rows moved out where the exact one has no point', () => {
    const off = (by: number): LinearProgram => ({
      ...program,
      rows: [...program.rows, { id: 'cap', upper: 10 * (1 - by), terms: { a: 1, b: 1 } }],
    });
    const [hair, more] = [off(5e-7), off(5e-6)];
    expect(faultOf(hair, exact(hair), optimal(4, 6))).toBeUndefined();
    expect(faultOf(hair, exact(hair), { verdict: 'infeasible' })).toBeUndefined();
    expect(faultOf(hair, exact(hair), optimal(4 - 1e-3, 6 + 1e-3))).toBeUndefined();
    expect(faultOf(more, exact(more), optimal(4, 6))).toMatch(/row cap is missed/);
  });

  it('sees an integer that is not whole', () => {
    const whole = { ...program, columns: program.columns.map((column) => ({ ...column, integer: true })) };
    expect(faultOf(whole, exact(whole), optimal(3.5, 6.5))).toMatch(/not whole/);
  });

  it('without an exact answer lets the better point refute', () => {
    expect(faultAgainst(program, optimal(3.75, 6.25), optimal(4, 6))).toMatch(/costs 16.25/);
    expect(faultAgainst(program, optimal(4, 6), optimal(3.75, 6.25))).toBeUndefined();
    expect(faultAgainst(program, { verdict: 'infeasible' }, optimal(4, 6))).toMatch(/has an answer/);
    expect(faultAgainst(program, { verdict: 'infeasible' }, optimal(4, 5))).toBeUndefined();
  });
});
