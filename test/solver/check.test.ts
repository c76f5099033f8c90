import { describe, expect, it } from 'vitest';
import { type Engine, type LinearProgram, ProgramError, solve } from '../../solver/index.js';

const a = { id: 'a', cost: 1 };
const row = { id: 'r', lower: 1, terms: { a: 1 } };

/** One fault each, and all that is said about it. */
const faults: [code: string, message: string, program: unknown][] = [
  ['not-a-program', 'program: found null; expected an object with columns: [] and rows: []', null],
  ['not-a-program', 'program: found {"columns":[]}; expected an object with columns: [] and rows: []', { columns: [] }],
  ['not-a-program', 'column 1: found 3; expected an object with id and cost', { columns: [3], rows: [] }],
  [
    'not-a-program',
    'row "r": found {"id":"r"}; expected an object with id and terms: { columnId: coefficient }',
    { columns: [a], rows: [{ id: 'r' }] },
  ],
  [
    'unknown-key',
    'program: found key "opType"; expected only columns, rows',
    { columns: [a], rows: [], opType: 'max' },
  ],
  [
    'unknown-key',
    'column "a": found key "uper"; expected only id, cost, lower, upper, integer',
    { columns: [{ ...a, uper: 1 }], rows: [] },
  ],
  [
    'unknown-key',
    'row "r": found key "min"; expected only id, lower, upper, terms',
    { columns: [a], rows: [{ ...row, min: 1 }] },
  ],
  ['not-an-id', 'column 1: found 7; expected a string as id', { columns: [{ ...a, id: 7 }], rows: [] }],
  ['not-an-id', 'row 1: found undefined; expected a string as id', { columns: [a], rows: [{ lower: 1, terms: {} }] }],
  ['duplicate-id', 'column "a": found the id twice; expected an id of its own', { columns: [a, a], rows: [] }],
  ['duplicate-id', 'row "r": found the id twice; expected an id of its own', { columns: [a], rows: [row, row] }],
  ['not-a-number', 'column "a", cost: found undefined; expected a number', { columns: [{ id: 'a' }], rows: [] }],
  [
    'not-a-number',
    'column "a", cost: found NaN; expected a number',
    { columns: [{ ...a, cost: Number.NaN }], rows: [] },
  ],
  ['not-a-number', 'column "a", upper: found "3"; expected a number', { columns: [{ ...a, upper: '3' }], rows: [] }],
  [
    'not-a-number',
    'row "r", lower: found NaN; expected a number',
    { columns: [a], rows: [{ ...row, lower: Number.NaN }] },
  ],
  [
    'not-a-number',
    'row "r", term "a": found NaN; expected a number',
    { columns: [a], rows: [{ ...row, terms: { a: Number.NaN } }] },
  ],
  [
    'not-finite',
    'column "a", cost: found Infinity; expected a finite number',
    { columns: [{ ...a, cost: Number.POSITIVE_INFINITY }], rows: [] },
  ],
  [
    'not-finite',
    'column "a", lower: found Infinity; expected any number but Infinity',
    { columns: [{ ...a, lower: Number.POSITIVE_INFINITY }], rows: [] },
  ],
  [
    'not-finite',
    'row "r", upper: found -Infinity; expected any number but -Infinity',
    { columns: [a], rows: [{ id: 'r', upper: Number.NEGATIVE_INFINITY, terms: {} }] },
  ],
  [
    'not-finite',
    'row "r", term "a": found -Infinity; expected a finite number',
    { columns: [a], rows: [{ ...row, terms: { a: Number.NEGATIVE_INFINITY } }] },
  ],
  [
    'crossed-bounds',
    'column "a": found lower 2 above upper 1; expected lower ≤ upper',
    { columns: [{ ...a, lower: 2, upper: 1 }], rows: [] },
  ],
  [
    'crossed-bounds',
    'column "a": found lower 0 above upper -1; expected lower ≤ upper',
    { columns: [{ ...a, upper: -1 }], rows: [] },
  ],
  [
    'crossed-bounds',
    'row "r": found lower 1 above upper 0.5; expected lower ≤ upper',
    { columns: [a], rows: [{ ...row, upper: 0.5 }] },
  ],
  [
    'unknown-column',
    'row "r", term "b": found "b"; expected the id of a column',
    { columns: [a], rows: [{ ...row, terms: { b: 1 } }] },
  ],
  [
    'unknown-column',
    'row "r", term "__proto__": found "__proto__"; expected the id of a column',
    { columns: [a], rows: [{ ...row, terms: JSON.parse('{"__proto__": 1}') }] },
  ],
  [
    'not-a-flag',
    'column "a", integer: found "yes"; expected true or false',
    { columns: [{ ...a, integer: 'yes' }], rows: [] },
  ],
];

describe('a faulty program is refused before any engine sees it', () => {
  const never: Engine = {
    name: 'never',
    integers: true,
    solve: () => {
      throw new Error('an engine was asked');
    },
  };

  it.each(faults)('%s: %s', async (code, message, program) => {
    const error = await solve(program as LinearProgram, { engines: [never] }).catch((e: unknown) => e);
    expect(error).toBeInstanceOf(ProgramError);
    expect((error as ProgramError).problems.map((problem) => problem.code)).toEqual([code]);
    expect((error as ProgramError).message).toBe(message);
  });

  it('every fault at once, as plain values', async () => {
    const program = {
      columns: [{ ...a, cost: Number.NaN }, a],
      rows: [{ ...row, lower: 3, upper: 2, terms: { z: 1 } }],
    };
    const error = await solve(program, { engines: [never] }).catch((e: unknown) => e);
    expect((error as ProgramError).name).toBe('ProgramError');
    expect((error as ProgramError).problems).toEqual([
      { code: 'duplicate-id', where: 'column "a"', found: 'the id twice', expected: 'an id of its own' },
      { code: 'not-a-number', where: 'column "a", cost', found: 'NaN', expected: 'a number' },
      { code: 'crossed-bounds', where: 'row "r"', found: 'lower 3 above upper 2', expected: 'lower ≤ upper' },
      { code: 'unknown-column', where: 'row "r", term "z"', found: '"z"', expected: 'the id of a column' },
    ]);
  });
});
