import { describe, expect, it } from 'vitest';
import { costRange, highs, type LinearProgram, shadowPrice, solve } from '../../solver/index.js';
import { stigler } from './stigler.js';

const program = stigler();
const at = (row: string, lower: number): LinearProgram => ({
  ...program,
  rows: program.rows.map((r) => (r.id === row ? { ...r, lower } : r)),
});

async function cost(of: LinearProgram): Promise<number> {
  const answer = await solve(of);
  if (answer.verdict !== 'optimal') throw new Error(answer.verdict);
  return answer.objective;
}

describe('Stigler 1945: what it costs to insist on a nutrient', () => {
  it('the prices of all nine requirements are the other engine’s multipliers, and together they are the cost', async () => {
    const second = await solve(program, { engines: [highs] });
    if (second.verdict !== 'optimal') throw new Error(second.verdict);
    let paid = 0;
    const dear: string[] = [];
    for (const row of program.rows) {
      const price = await shadowPrice(program, row.id, 'lower');
      if (price.verdict !== 'price') throw new Error(price.why);
      // the answer is not degenerate, so the price is one
      expect(Math.abs(price.right.price! - second.y[row.id]!)).toBeLessThanOrEqual(1e-9);
      expect(Math.abs(price.left.price! - price.right.price!)).toBeLessThanOrEqual(1e-9);
      paid += price.right.price! * row.lower!;
      if (price.right.price! > 1e-9) dear.push(row.id);
    }
    // strong duality: Σ price · requirement is the least cost, 0.108662 dollars a day as printed with six decimals
    expect(paid).toBeCloseTo(0.108662, 6);
    expect(dear).toEqual(['calories_kcal', 'calcium_g', 'vitA_kIU', 'vitB2_mg', 'vitC_mg']);
  });

  it.each(program.rows.map((row) => [row.id, row.lower!] as const))(
    '%s raised and lowered: the cost follows the price to each limit, and leaves it beyond',
    async (row, lower) => {
      const here = await cost(program);
      const price = await shadowPrice(program, row, 'lower');
      if (price.verdict !== 'price') throw new Error(price.why);
      for (const [side, sign] of [
        [price.left, -1],
        [price.right, 1],
      ] as const) {
        const limit = side.limit ?? lower + sign * lower;
        const line = (b: number): number => here + side.price! * (b - lower);
        for (const b of [(lower + limit) / 2, limit])
          expect(Math.abs((await cost(at(row, b))) - line(b))).toBeLessThanOrEqual(1e-9);
        if (side.limit === null) continue;
        const beyond = limit + 0.1 * sign * Math.max(Math.abs(limit - lower), 0.01 * lower);
        expect(await cost(at(row, beyond))).toBeGreaterThan(line(beyond));
      }
    },
  );

  it('a dollar’s worth of each food used: between which prices the diet stays', async () => {
    const answer = await solve(program);
    if (answer.verdict !== 'optimal') throw new Error(answer.verdict);
    const used = program.columns.filter(({ id }) => answer.x[id]! > 1e-9);
    expect(used).toHaveLength(5);
    for (const { id } of used) {
      const range = await costRange(program, id, answer.x);
      if (range.verdict !== 'range') throw new Error(range.why);
      for (const [end, sign] of [
        [range.lowest, -1],
        [range.highest, 1],
      ] as const) {
        if (end === null) continue;
        const priced = (c: number): LinearProgram => ({
          ...program,
          columns: program.columns.map((col) => (col.id === id ? { ...col, cost: c } : col)),
        });
        const kept = (c: number): number => answer.objective + (c - 1) * answer.x[id]!;
        expect(Math.abs((await cost(priced(end))) - kept(end))).toBeLessThanOrEqual(1e-9);
        expect(await cost(priced(end + 0.05 * sign))).toBeLessThan(kept(end + 0.05 * sign));
      }
    }
  });
});
