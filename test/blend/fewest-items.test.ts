import { describe, expect, it } from 'vitest';
import { fewestItems } from '../../src/blend/fewest-items.js';
import { planFeed } from '../../src/blend/feed-plan.js';
import { leastMeasured } from '../../src/dose/open-items.js';
import { toolsOf } from '../../src/dose/tools.js';
import { programOn } from '../../src/formulation/index.js';
import type { LinearProgram } from '../../solver/index.js';
import { dice } from '../solver/dice.js';
import { independent } from '../solver/independent.js';
import { goodShelf } from './good-shelves.js';
import { seeds } from '../seeds.js';

const MOST_PRODUCTS = 8;
const SHELVES = seeds(24, 48);

/** Every choice of so many. */
const choices = (ids: readonly string[], many: number): string[][] =>
  many === 0 ? [[]] : ids.flatMap((id, i) => choices(ids.slice(i + 1), many - 1).map((others) => [id, ...others]));

/** The least cost with all of these products, each by what the kit measures at least, and no other; null where nothing fits. */
async function costOf(
  { columns, rows }: LinearProgram,
  products: ReadonlySet<string>,
  choice: readonly string[],
  least: ReadonlyMap<string, number>,
): Promise<number | null> {
  const own = columns.map((column) => {
    if (!products.has(column.id)) return column;
    return choice.includes(column.id)
      ? { ...column, lower: Math.max(column.lower ?? 0, least.get(column.id) ?? 0) }
      : { ...column, upper: 0 };
  });
  if (own.some(({ lower = 0, upper }) => upper !== undefined && lower > upper)) return null;
  const { status, objective } = await independent({ columns: own, rows });
  return status === 'optimal' ? objective : null;
}

/** The fewest products of all choices, and the least cost with so few. */
async function fewestOfAll(
  program: LinearProgram,
  products: readonly string[],
  least: ReadonlyMap<string, number>,
): Promise<{ items: number; cost: number } | null> {
  for (let items = 0; items <= products.length; items += 1) {
    const costs: number[] = [];
    for (const choice of choices(products, items)) {
      const cost = await costOf(program, new Set(products), choice, least);
      if (cost !== null) costs.push(cost);
    }
    if (costs.length > 0) return { items, cost: Math.min(...costs) };
  }
  return null;
}

describe('the fewest items', () => {
  it(`of a plan are the fewest of every choice of products, on ${SHELVES} shelves of at most ${MOST_PRODUCTS}`, async () => {
    const wrong: string[] = [];
    let [shelves, moved, sought] = [0, 0, 0];
    for (let seed = 2_001; shelves < SHELVES; seed += 1) {
      const { open, request } = await goodShelf(seed);
      if (request.shelf.length > MOST_PRODUCTS) continue;
      shelves += 1;
      const asked = { want: 'near', factor: 1, sure: 0.9, kit: open.kit, known: [], offers: false } as const;
      const planned = await planFeed(request, asked);
      if (!('plan' in planned)) continue;
      const { held, ideal, proof } = planned;
      if (proof.settled.question !== 'plan' || proof.settled.fewest === null) continue;
      const { fewest, movedIn } = proof.settled;
      sought += 1;
      if (movedIn) moved += 1;
      const { program, products } = programOn(held, ideal.linearisation);
      const terms = Object.fromEntries(program.columns.filter((c) => c.cost !== 0).map((c) => [c.id, c.cost]));
      const capped = { ...program, rows: [...program.rows, { id: 'cost', upper: fewest.mostCost, terms }] };
      const least = new Map(
        [...products].map(([id, i]) => [
          id,
          leastMeasured(held.shelf[i]!, toolsOf(open.kit)) / request.header.batchLitres!,
        ]),
      );
      const referee = await fewestOfAll(capped, [...products.keys()], least);
      const own = await fewestItems(capped, [...products.keys()], least);
      const name = `${seed}: ${fewest.items} for ${own?.best.answer.objective}, the referee has ${referee?.items} for ${referee?.cost}`;
      if (!fewest.branches.ended || fewest.items !== referee?.items) wrong.push(name);
      else if (Math.abs(own!.best.answer.objective / referee.cost - 1) > 1e-6) wrong.push(name);
    }
    expect(wrong).toEqual([]);
    expect(sought).toBeGreaterThanOrEqual(seeds(20, 40));
    expect(moved).toBeGreaterThanOrEqual(seeds(5, 10));
  });

  it('of any program with least amounts are found, and where no choice fits none is', async () => {
    const d = dice(77);
    const seen = { none: 0, some: 0 };
    for (let round = 0; round < 150; round += 1) {
      const ids = Array.from({ length: d.whole(2, 6) }, (_, i) => `x${i}`);
      const columns = ids.map((id) => ({
        id,
        cost: d.between(1, 9),
        lower: 0,
        ...(d.chance(0.3) ? { upper: d.between(0.5, 3) } : {}),
      }));
      const rows = Array.from({ length: d.whole(1, 4) }, (_, r) => {
        const terms = Object.fromEntries(ids.flatMap((id) => (d.chance(0.6) ? [[id, d.between(0.2, 3)]] : [])));
        const lower = d.between(0.5, 4);
        return { id: `r${r}`, lower, upper: lower * d.between(1.05, 1.6), terms };
      });
      const least = new Map(ids.map((id) => [id, d.chance(0.7) ? d.between(0.1, 1.2) : 0]));
      const own = await fewestItems({ columns, rows }, ids, least);
      const referee = await fewestOfAll({ columns, rows }, ids, least);
      seen[referee === null ? 'none' : 'some'] += 1;
      expect(own?.best.items.size ?? null, `${round}`).toBe(referee?.items ?? null);
      if (referee && referee.cost > 0)
        expect(Math.abs(own!.best.answer.objective / referee.cost - 1), `${round}`).toBeLessThan(1e-6);
    }
    expect(seen.none).toBeGreaterThan(15);
    expect(seen.some).toBeGreaterThan(50);
  });
});
