import { describe, expect, it } from 'vitest';
import { type Item, rowViolation, type UpperRow } from '../../../solver/small/items.js';
import { cheapestVertex } from '../../../solver/small/vertex.js';
import { searchLevels } from '../../../solver/small/search.js';
import { solve } from '../../../solver/index.js';
import { dice } from '../dice.js';

describe('the cheapest vertex', () => {
  it('costs what a certified solve says, or neither finds any', async () => {
    let [some, none] = [0, 0];
    for (let seed = 1; seed <= 120; seed += 1) {
      const d = dice(seed);
      const n = d.whole(1, 6);
      const rows = Array.from({ length: d.whole(1, 10) }, () =>
        Float64Array.from({ length: n }, () => d.between(-1, 1)),
      );
      const upper = Float64Array.from(rows, () => d.between(-0.3, 0.9));
      const costs = Float64Array.from({ length: n }, () => d.between(0, 2));
      const low = Float64Array.from({ length: n }, () => d.between(0, 0.5));
      const high = low.map((least) => least + d.between(0, 1));
      const { bound, x } = cheapestVertex({ rows, upper, costs }, low, high);
      const verdict = await solve({
        columns: [...costs].map((cost, v) => ({ id: `x${v}`, cost, lower: low[v]!, upper: high[v]! })),
        rows: rows.map((row, r) => ({
          id: `r${r}`,
          upper: upper[r]!,
          terms: Object.fromEntries([...row].map((term, v) => [`x${v}`, term])),
        })),
      });
      expect([seed, bound === Number.POSITIVE_INFINITY]).toEqual([seed, verdict.verdict === 'infeasible']);
      if (verdict.verdict === 'optimal') {
        some += 1;
        expect(bound).toBeCloseTo(verdict.objective, 7);
        // the bound is by multipliers alone, the vertex by its levels: that they meet proves both
        expect(costs.reduce((sum, cost, v) => sum + cost * x[v]!, 0)).toBeCloseTo(bound, 7);
      } else none += 1;
    }
    expect(some).toBeGreaterThan(30);
    expect(none).toBeGreaterThan(20);
  });
});

describe('the search', () => {
  it.each([0, 0.05])('finds the least cost of all combinations, with spreads of %f of each level', (spread) => {
    let [some, none] = [0, 0];
    for (let seed = 1; seed <= 150; seed += 1) {
      const { items, rows } = seeded(seed, spread);
      const found = searchLevels(items, rows);
      const costs = everyChoice(items).filter((picks) => worst(rows, items, picks) <= 0);
      const least = Math.min(...costs.map((picks) => costOf(items, picks)));
      expect([seed, found.complete, found.picks === null]).toEqual([seed, true, costs.length === 0]);
      if (!found.picks) none += 1;
      else {
        some += 1;
        expect(found.cost).toBeCloseTo(least, 8);
        expect(found.violation).toBe(0);
      }
    }
    expect(some).toBeGreaterThan(20);
    expect(none).toBeGreaterThan(20);
  });

  it('finds the least violation to a hundredth, firm rows held', () => {
    for (let seed = 1; seed <= 150; seed += 1) {
      const { items, rows } = seeded(seed, 0);
      const some = rows.map((row, r) => (r === 0 ? { ...row, firm: true } : row));
      const found = searchLevels(items, some, { leastViolation: true });
      const held = everyChoice(items).filter((picks) => rowViolation(some[0]!, items, picks) <= 0);
      const least = Math.min(...held.map((picks) => Math.max(0, worst(some, items, picks))));
      expect(found.complete).toBe(true);
      expect(rowViolation(some[0]!, items, found.picks!)).toBeLessThanOrEqual(0);
      expect(found.violation).toBeCloseTo(Math.max(0, worst(some, items, found.picks!)), 12);
      // a hundredth of it, and deviations in all weigh no more than 1e-5
      expect(found.violation).toBeLessThanOrEqual(least * 1.011 + 1.1e-5);
    }
  });

  it('answers the example at its door', () => {
    const levels = [0, 1, 3];
    const items = [{ target: 2, levels, lows: levels, highs: levels, costs: [1, 0.5, 0.5] }];
    const found = searchLevels(items, [{ terms: [1], upper: 2.5, size: 2.5 }]);
    expect(found).toEqual({ picks: [1], cost: 0.5, violation: 0, nodes: found.nodes, complete: true });
    expect(searchLevels(items, [{ terms: [1], upper: -1, size: 1 }])).toMatchObject({ picks: null, complete: true });
  });

  it('says so where it is stopped', () => {
    const { items, rows } = seeded(3, 0);
    expect(searchLevels(items, rows, { mostNodes: 1 }).complete).toBe(false);
  });

  it('asks on where whole choices are refused by what rows do not tell', () => {
    for (let seed = 1; seed <= 60; seed += 1) {
      const { items, rows } = seeded(seed, 0);
      const odd = (picks: readonly number[]): boolean => picks.reduce((sum, k) => sum + k, 0) % 2 === 1;
      const found = searchLevels(items, rows, { violationOf: (picks) => (odd(picks) ? 1 : 0) });
      const costs = everyChoice(items)
        .filter((picks) => !odd(picks) && worst(rows, items, picks) <= 0)
        .map((picks) => costOf(items, picks));
      if (costs.length === 0) expect(found.picks).toBeNull();
      else expect(found.cost).toBeCloseTo(Math.min(...costs), 8);
    }
  });
});

/** Three items of eight levels around its target; narrow bands on three elements, the first row a maximum. */
function seeded(seed: number, spread: number): { items: Item[]; rows: UpperRow[] } {
  const d = dice(seed);
  const items = Array.from({ length: 3 }, (): Item => {
    const target = d.between(0.2, 3);
    const levels = [0, ...Array.from({ length: 7 }, () => target * d.between(0.3, 2))].sort((a, b) => a - b);
    return {
      target,
      levels,
      lows: levels.map((level) => level * (1 - spread)),
      highs: levels.map((level) => level * (1 + spread)),
      costs: levels.map((level) => Math.abs(level - target) / target),
    };
  });
  const rows = Array.from({ length: 3 }, (): UpperRow[] => {
    const terms = items.map(() => d.between(0, 10));
    const sum = terms.reduce((total, term, i) => total + term * items[i]!.target, 0);
    const width = d.between(0.02, 0.15) + spread;
    return [
      { terms, upper: sum * (1 + width), size: sum },
      { terms: terms.map((term) => -term), upper: -sum * (1 - width), size: sum },
    ];
  }).flat();
  return { items, rows };
}

const everyChoice = (items: readonly Item[]): number[][] =>
  items.reduce<number[][]>((all, { levels }) => all.flatMap((picks) => levels.map((_, k) => [...picks, k])), [[]]);

const worst = (rows: readonly UpperRow[], items: readonly Item[], picks: readonly number[]): number =>
  Math.max(...rows.map((row) => rowViolation(row, items, picks)));

const costOf = (items: readonly Item[], picks: readonly number[]): number =>
  picks.reduce((sum, k, i) => sum + items[i]!.costs[k]!, 0);
