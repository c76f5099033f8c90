import { type Column, highs, type LinearProgram, type Optimal, type Row, simplex, solve } from '../../solver/index.js';
import { amountsOf } from '../formulation/index.js';
import { feedColumn, type Joint } from './program.js';
import type { Amounts } from '../can/mix-amounts.js';
import { productColumn } from '../feed/terms.js';

/** With these engines first, because joint programs are large; the certificate judges them all alike. */
export const ENGINES = [highs, simplex];

/** What of each candidate may be used once these packs are bought, g or mL; Infinity where the stock is unknown. */
export function availableWith(joint: Joint, counts: readonly number[]): number[] {
  return joint.pool.map(({ onHand, offer }, i) =>
    onHand === null ? Number.POSITIVE_INFINITY : onHand + (offer?.pack ?? 0) * (counts[i] ?? 0),
  );
}

/** How the feeds are mixed from what is there. */
export interface Settled {
  answer: Optimal;
  /** One for each feed, in pool and water order. */
  amounts: Amounts[];
}

/**
 * The thriftiest blends from given stocks: the least value of product and water over all litres, water costing no more than
 * `waterCost` in all. Null where the stocks do not do.
 */
export async function settleThrift(
  joint: Joint,
  available: readonly number[],
  waterCost = Number.POSITIVE_INFINITY,
): Promise<Settled | null> {
  const { columns, rows } = stockProgram(joint, available);
  const water: Record<string, number> = {};
  joint.feeds.forEach(({ formulated, waterLitres }, f) => {
    for (const column of formulated.program.columns) {
      if (formulated.waters.has(column.id) && column.cost > 0)
        water[feedColumn(f, column.id)] = waterLitres * column.cost;
    }
  });
  if (!Number.isFinite(waterCost) || Object.keys(water).length === 0) return settled(joint, { columns, rows });
  // a cap of next to nothing is a bound of zero on each, which no engine has to round
  const capped: LinearProgram =
    waterCost > NOTHING
      ? { columns, rows: [...rows, { id: 'water-cost', upper: waterCost * (1 + ROUNDING), terms: water }] }
      : { columns: columns.map((c) => (water[c.id] === undefined ? c : { ...c, upper: 0 })), rows };
  return (await settled(joint, capped)) ?? settled(joint, { columns, rows });
}

/** Money that is none. */
const NOTHING = 1e-6;
/** The search is good to 1e-6, which must not leave the next program without a point. */
const ROUNDING = 1e-6;

/** All feeds over given stocks; only products that are there have columns. Costs are values over the horizon. */
function stockProgram(joint: Joint, available: readonly number[]): LinearProgram {
  const columns: Column[] = [];
  const rows: Row[] = [];
  joint.feeds.forEach(({ formulated, litres, waterLitres }, f) => {
    for (const column of formulated.program.columns) {
      const index = formulated.products.get(column.id);
      if (index !== undefined && !(available[index]! > 0)) continue;
      const over = index === undefined ? waterLitres : litres;
      columns.push({ ...column, id: feedColumn(f, column.id), cost: column.cost * over });
    }
  });
  const known = new Set(columns.map((column) => column.id));
  joint.feeds.forEach(({ formulated }, f) => {
    for (const row of formulated.program.rows) {
      rows.push({ ...row, id: feedColumn(f, row.id), terms: prefixed(row.terms, f, known) });
    }
  });
  joint.pool.forEach((_, i) => {
    const stock = available[i]!;
    if (!(stock > 0) || !Number.isFinite(stock)) return;
    const terms = Object.fromEntries(
      joint.feeds.map(({ litres }, f) => [feedColumn(f, productColumn(i)), litres] as const),
    );
    rows.push({ id: `stock:${i}`, upper: stock, terms });
  });
  return { columns, rows };
}

function prefixed(terms: Readonly<Record<string, number>>, feed: number, known?: ReadonlySet<string>) {
  return Object.fromEntries(
    Object.entries(terms)
      .map(([id, a]) => [feedColumn(feed, id), a] as const)
      .filter(([id]) => known?.has(id) ?? true),
  );
}

async function settled(joint: Joint, program: LinearProgram): Promise<Settled | null> {
  const first = await solve(program, { engines: ENGINES });
  const answer = first.verdict === 'uncertified' ? await solve(program) : first;
  if (answer.verdict !== 'optimal') return null;
  const amounts = joint.feeds.map(({ formulated }, f) => amountsOf(answer, formulated, (id) => feedColumn(f, id)));
  return { answer, amounts };
}
