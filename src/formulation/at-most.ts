import { type LinearProgram, solve } from '../../solver/index.js';
import type { Formulated } from './formulate.js';
import { productColumn } from '../feed/terms.js';

/**
 * The same program with a 0/1 column for each product and at most `most` of them 1: x ≤ ceiling(x) · used, Σ used ≤ most.
 * @param bounds the program that the ceilings are read from, where that is another
 */
export function withAtMost(formulated: Formulated, most: number, bounds = formulated.program): Formulated {
  const { program } = formulated;
  const columns = [...program.columns];
  const rows = [...program.rows];
  const used: Record<string, number> = {};
  for (const [id] of formulated.products) {
    columns.push({ id: usedColumn(id), cost: 0, upper: 1, integer: true });
    rows.push({ id: `use:${id}`, upper: 0, terms: { [id]: 1, [usedColumn(id)]: -ceilingOf(bounds, id) } });
    used[usedColumn(id)] = 1;
  }
  rows.push({ id: 'at-most', upper: most, terms: used });
  return { ...formulated, program: { columns, rows } };
}

/** 1 where a product is used at all. */
const usedColumn = (product: string): string => `used:${product}`;

/** The fewest products that can keep every limit, or null if the search did not end. */
export async function fewestProducts(formulated: Formulated): Promise<number | null> {
  const { program } = withAtMost(formulated, formulated.products.size);
  const used = new Set([...formulated.products.keys()].map(usedColumn));
  const counting = {
    ...program,
    columns: program.columns.map((c) => ({ ...c, cost: used.has(c.id) ? 1 : 0 })),
  };
  const verdict = await solve(counting);
  return verdict.verdict === 'optimal' ? Math.round(verdict.objective) : null;
}

/** The products an integer answer uses. */
export function chosen(formulated: Formulated, answer: { x: Readonly<Record<string, number>> }): Set<number> {
  return new Set([...formulated.products].filter(([id]) => answer.x[usedColumn(id)]! > 0.5).map(([, index]) => index));
}

/**
 * The same program with every product outside the choice held at zero. It is solved again as a linear program, so that the
 * amounts carry that certificate.
 */
export function restrictTo(formulated: Formulated, products: ReadonlySet<number>): Formulated {
  const banned = new Set([...formulated.products.values()].filter((i) => !products.has(i)).map(productColumn));
  const columns = formulated.program.columns.map((c) => (banned.has(c.id) ? { ...c, upper: 0 } : c));
  return { ...formulated, program: { ...formulated.program, columns } };
}

/**
 * The most of a column that any feasible mix can hold: the least of its own bound and upper / coefficient over the rows
 * whose coefficients are all ≥ 0; 1 kg (or litre) per litre where nothing bounds it.
 */
export function ceilingOf(program: LinearProgram, id: string): number {
  let most = Math.min(1000, program.columns.find((c) => c.id === id)?.upper ?? Number.POSITIVE_INFINITY);
  for (const row of program.rows) {
    const a = row.terms[id] ?? 0;
    if (row.upper === undefined || a <= 0 || Object.values(row.terms).some((t) => t < 0)) continue;
    most = Math.min(most, row.upper / a);
  }
  return most;
}
