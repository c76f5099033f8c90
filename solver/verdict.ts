import type { Best, LinearProgram, Optimal, Uncertified, Verdict } from './program.js';
import type { Table } from './table.js';

/** A verdict by position, before ids are put back. */
export type Finding =
  | (Omit<Optimal, 'x' | 'y'> & { x: number[]; y: number[] })
  | { verdict: 'infeasible'; ray: number[]; engine: string }
  | { verdict: 'unbounded'; x: number[]; ray: number[]; engine: string }
  | (Omit<Uncertified, 'best'> & { best?: Omit<Best, 'x'> & { x: number[] } });

/** Solves a table without integers and certifies the answer. */
export type Judge = (table: Table) => Promise<Finding>;

/** The finding with the program's ids. */
export function verdict(program: LinearProgram, finding: Finding): Verdict {
  const columns = (values: readonly number[]) => named(program.columns, values);
  const rows = (values: readonly number[]) => named(program.rows, values);
  switch (finding.verdict) {
    case 'optimal':
      return { ...finding, x: columns(finding.x), y: rows(finding.y) };
    case 'infeasible':
      return { ...finding, ray: rows(finding.ray) };
    case 'unbounded':
      return { ...finding, x: columns(finding.x), ray: columns(finding.ray) };
    case 'uncertified': {
      const { best, ...said } = finding;
      return best ? { ...said, best: { ...best, x: columns(best.x) } } : said;
    }
  }
}

/** Without a prototype, `__proto__` is an id like any other. −0 becomes 0, so that it prints as 0. */
function named(items: readonly { id: string }[], values: readonly number[]): Record<string, number> {
  const record: Record<string, number> = Object.create(null);
  values.forEach((value, at) => {
    record[items[at]!.id] = value === 0 ? 0 : value;
  });
  return record;
}
