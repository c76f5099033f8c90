import type { Column, LinearProgram, Row } from './program.js';

/** One fault of a program: where it is, what was found there, what was expected. */
export interface ProgramProblem {
  code:
    | 'not-a-program'
    | 'not-an-id'
    | 'duplicate-id'
    | 'not-a-number'
    | 'not-finite'
    | 'crossed-bounds'
    | 'unknown-column'
    | 'not-a-flag'
    | 'unknown-key';
  /** Such as `column "a", upper` or `row "N", term "a"`. */
  where: string;
  found: string;
  expected: string;
}

/** Thrown before any engine sees the program; `problems` lists every fault at once. */
export class ProgramError extends Error {
  override readonly name = 'ProgramError';
  readonly problems: readonly ProgramProblem[];
  constructor(problems: readonly ProgramProblem[]) {
    super(problems.map((p) => `${p.where}: found ${p.found}; expected ${p.expected}`).join('\n'));
    this.problems = problems;
  }
}

/** Refuses a faulty program with a ProgramError. */
export function check(program: LinearProgram): void {
  const problems = faults(program);
  if (problems.length > 0) throw new ProgramError(problems);
}

/** Every fault of a program: no number that isn't one, no crossed bounds, no unknown or duplicate id, no misspelt key. */
function faults(program: LinearProgram): ProgramProblem[] {
  if (!isRecord(program) || !Array.isArray(program.columns) || !Array.isArray(program.rows)) {
    return [
      {
        code: 'not-a-program',
        where: 'program',
        found: show(program),
        expected: 'an object with columns: [] and rows: []',
      },
    ];
  }
  const known = new Set(program.columns.filter(isRecord).map((column) => column.id));
  return [
    ...strayKeys('program', program, ['columns', 'rows']),
    ...duplicates('column', program.columns),
    ...program.columns.flatMap((column, j) => columnFaults(column, j)),
    ...duplicates('row', program.rows),
    ...program.rows.flatMap((row, i) => rowFaults(row, i, known)),
  ];
}

function columnFaults(column: Column, j: number): ProgramProblem[] {
  const where = place('column', column, j);
  if (!isRecord(column))
    return [{ code: 'not-a-program', where, found: show(column), expected: 'an object with id and cost' }];
  return [
    ...strayKeys(where, column, ['id', 'cost', 'lower', 'upper', 'integer']),
    ...idFaults(where, column.id),
    ...finite(`${where}, cost`, column.cost),
    ...ends(where, column.lower ?? 0, column.upper),
    ...(column.integer === undefined || typeof column.integer === 'boolean'
      ? []
      : [
          {
            code: 'not-a-flag' as const,
            where: `${where}, integer`,
            found: show(column.integer),
            expected: 'true or false',
          },
        ]),
  ];
}

function rowFaults(row: Row, i: number, known: ReadonlySet<string>): ProgramProblem[] {
  const where = place('row', row, i);
  if (!isRecord(row) || !isRecord(row.terms)) {
    return [
      {
        code: 'not-a-program',
        where,
        found: show(row),
        expected: 'an object with id and terms: { columnId: coefficient }',
      },
    ];
  }
  return [
    ...strayKeys(where, row, ['id', 'lower', 'upper', 'terms']),
    ...idFaults(where, row.id),
    ...ends(where, row.lower, row.upper),
    ...Object.entries(row.terms).flatMap(([id, coefficient]) => [
      ...(known.has(id)
        ? []
        : [
            {
              code: 'unknown-column' as const,
              where: `${where}, term ${quote(id)}`,
              found: quote(id),
              expected: 'the id of a column',
            },
          ]),
      ...finite(`${where}, term ${quote(id)}`, coefficient),
    ]),
  ];
}

/** An end may be absent or open (−Infinity below, +Infinity above), never NaN, never beyond the other end. */
function ends(where: string, lower: number | undefined, upper: number | undefined): ProgramProblem[] {
  const low = lower ?? Number.NEGATIVE_INFINITY;
  const high = upper ?? Number.POSITIVE_INFINITY;
  const problems = [
    ...number(`${where}, lower`, low, Number.POSITIVE_INFINITY),
    ...number(`${where}, upper`, high, Number.NEGATIVE_INFINITY),
  ];
  if (problems.length === 0 && low > high) {
    problems.push({
      code: 'crossed-bounds',
      where,
      found: `lower ${low} above upper ${high}`,
      expected: 'lower ≤ upper',
    });
  }
  return problems;
}

function number(where: string, value: unknown, never: number): ProgramProblem[] {
  if (typeof value !== 'number' || Number.isNaN(value)) {
    return [{ code: 'not-a-number', where, found: show(value), expected: 'a number' }];
  }
  return value === never
    ? [{ code: 'not-finite', where, found: show(value), expected: `any number but ${never}` }]
    : [];
}

function finite(where: string, value: unknown): ProgramProblem[] {
  if (typeof value !== 'number' || Number.isNaN(value)) {
    return [{ code: 'not-a-number', where, found: show(value), expected: 'a number' }];
  }
  return Number.isFinite(value) ? [] : [{ code: 'not-finite', where, found: show(value), expected: 'a finite number' }];
}

function idFaults(where: string, id: unknown): ProgramProblem[] {
  return typeof id === 'string' ? [] : [{ code: 'not-an-id', where, found: show(id), expected: 'a string as id' }];
}

function duplicates(kind: string, items: readonly { id: string }[]): ProgramProblem[] {
  const seen = new Set<string>();
  return items.filter(isRecord).flatMap(({ id }) => {
    if (typeof id !== 'string') return [];
    const again = seen.has(id);
    seen.add(id);
    return again
      ? [
          {
            code: 'duplicate-id' as const,
            where: `${kind} ${quote(id)}`,
            found: 'the id twice',
            expected: 'an id of its own',
          },
        ]
      : [];
  });
}

function strayKeys(where: string, value: object, known: readonly string[]): ProgramProblem[] {
  return Object.keys(value)
    .filter((key) => !known.includes(key))
    .map((key) => ({
      code: 'unknown-key' as const,
      where,
      found: `key ${quote(key)}`,
      expected: `only ${known.join(', ')}`,
    }));
}

function place(kind: string, item: unknown, position: number): string {
  return isRecord(item) && typeof item.id === 'string' ? `${kind} ${quote(item.id)}` : `${kind} ${position + 1}`;
}

export function isRecord(value: unknown): value is Record<string, unknown> {
  return typeof value === 'object' && value !== null && !Array.isArray(value);
}

function quote(text: string): string {
  return JSON.stringify(text);
}

function show(value: unknown): string {
  return typeof value === 'number' || value === undefined || typeof value === 'bigint'
    ? String(value)
    : (JSON.stringify(value) ?? typeof value);
}
