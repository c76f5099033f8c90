import type { Divided } from './divisor.js';
import type { Best, LinearProgram, Optimal, Uncertified, Verdict, WholeCase } from './program.js';
import type { Table } from './table.js';

/** A verdict by position, before ids are put back. */
export type Finding =
  | (Omit<Optimal, 'x' | 'y'> & { x: number[]; y: number[] })
  | { verdict: 'infeasible'; ray: number[]; engine: string; cases?: Case[]; divisor?: Divided }
  | { verdict: 'unbounded'; x: number[]; ray: number[]; engine: string }
  | (Omit<Uncertified, 'best'> & { best?: Omit<Best, 'x'> & { x: number[] } });

/** One case of a proof for whole numbers: the column bounds that make it, and the ray by which nothing fits there. */
export interface Case {
  lower: number[];
  upper: number[];
  ray: number[];
}

/** Solves a table without integers and certifies the answer. */
export type Judge = (table: Table) => Promise<Finding>;

/** The finding with the program's ids. */
export function verdict(program: LinearProgram, finding: Finding): Verdict {
  const columns = (values: readonly number[]) => named(program.columns, values);
  const rows = (values: readonly number[]) => named(program.rows, values);
  switch (finding.verdict) {
    case 'optimal':
      return { ...finding, x: columns(finding.x), y: rows(finding.y) };
    case 'infeasible': {
      const { cases, divisor, ray, ...said } = finding;
      return {
        ...said,
        ray: rows(ray),
        ...(cases ? { cases: cases.map((one) => ({ bounds: changed(program, one), ray: rows(one.ray) })) } : {}),
        ...(divisor ? { divisor: { weights: weighed(program, divisor.weights), by: String(divisor.by) } } : {}),
      };
    }
    case 'unbounded':
      return { ...finding, x: columns(finding.x), ray: columns(finding.ray) };
    case 'uncertified': {
      const { best, ...said } = finding;
      return best ? { ...said, best: { ...best, x: columns(best.x) } } : said;
    }
  }
}

/** The bounds of a case that are not the program's own. */
function changed(program: LinearProgram, { lower, upper }: Case): WholeCase['bounds'] {
  const bounds: WholeCase['bounds'] = Object.create(null);
  program.columns.forEach((column, j) => {
    const own = {
      ...(lower[j] === (column.lower ?? 0) ? {} : { lower: lower[j]! }),
      ...(upper[j] === (column.upper ?? Number.POSITIVE_INFINITY) ? {} : { upper: upper[j]! }),
    };
    if (Object.keys(own).length > 0) bounds[column.id] = own;
  });
  return bounds;
}

/** The rows with a weight, and theirs. */
function weighed(program: LinearProgram, weights: readonly bigint[]): Record<string, string> {
  const record: Record<string, string> = Object.create(null);
  weights.forEach((weight, i) => {
    if (weight !== 0n) record[program.rows[i]!.id] = String(weight);
  });
  return record;
}

/** Without a prototype, `__proto__` is an id like any other. −0 becomes 0, so that it prints as 0. */
function named(items: readonly { id: string }[], values: readonly number[]): Record<string, number> {
  const record: Record<string, number> = Object.create(null);
  values.forEach((value, at) => {
    record[items[at]!.id] = value === 0 ? 0 : value;
  });
  return record;
}
