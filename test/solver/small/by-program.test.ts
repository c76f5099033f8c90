import { describe, expect, it } from 'vitest';
import { byProgram } from './by-program.js';
import type { Item, UpperRow } from '../../../solver/small/items.js';
import { searchLevels } from '../../../solver/small/search.js';
import { dice } from '../dice.js';

describe('the integer program and the search', () => {
  it('agree on the cost, or that nothing holds, wherever the program ends in its time', async () => {
    let [some, none] = [0, 0];
    for (let seed = 1; seed <= 40; seed += 1) {
      const { items, rows } = seeded(seed);
      const found = searchLevels(items, rows);
      const program = await byProgram(items, rows, 0);
      expect([seed, found.complete]).toEqual([seed, true]);
      if (!program.proved) continue;
      expect([seed, program.picks === null]).toEqual([seed, found.picks === null]);
      if (found.picks) {
        some += 1;
        expect(program.cost).toBeCloseTo(found.cost, 6);
      } else none += 1;
    }
    expect(some).toBeGreaterThan(5);
    expect(none).toBeGreaterThan(5);
  });
});

/** Three items of eight levels around its target; narrow bands on three elements. */
function seeded(seed: number): { items: Item[]; rows: UpperRow[] } {
  const d = dice(seed);
  const items = Array.from({ length: 3 }, (): Item => {
    const target = d.between(0.2, 3);
    const levels = [0, ...Array.from({ length: 7 }, () => target * d.between(0.3, 2))].sort((a, b) => a - b);
    return {
      target,
      levels,
      lows: levels,
      highs: levels,
      costs: levels.map((level) => Math.abs(level - target) / target),
    };
  });
  const rows = Array.from({ length: 3 }, (): UpperRow[] => {
    const terms = items.map(() => d.between(0, 10));
    const sum = terms.reduce((total, term, i) => total + term * items[i]!.target, 0);
    const width = d.between(0.02, 0.1);
    return [
      { terms, upper: sum * (1 + width), size: sum },
      { terms: terms.map((term) => -term), upper: -sum * (1 - width), size: sum },
    ];
  }).flat();
  return { items, rows };
}
