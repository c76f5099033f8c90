import { describe, expect, it } from 'vitest';
import { type LinearProgram, solve } from '../../solver/index.js';
import { dice } from './dice.js';

/** Things to buy whole and to use by the part, two uses that share them, a need of each kind in either use. */
function purchase(seed: number): { program: LinearProgram; costs: number[]; parts: number } {
  const { unit: roll } = dice(seed);
  const things = 8;
  const costs = Array.from({ length: things }, () => Math.round(roll() * 400 + 40) / 20);
  const program: LinearProgram = { columns: [], rows: [] };
  costs.forEach((cost, i) => {
    program.columns.push({ id: `buy${i}`, cost, upper: 1, integer: true });
    for (const use of ['a', 'b']) {
      program.columns.push({ id: `${use}${i}`, cost: 0, upper: 10 });
      program.rows.push({ id: `only-${use}${i}`, upper: 0, terms: { [`${use}${i}`]: 1, [`buy${i}`]: -10 } });
    }
  });
  const kinds = 5;
  for (const use of ['a', 'b']) {
    for (let kind = 0; kind < kinds; kind += 1) {
      const terms = Object.fromEntries(
        costs.flatMap((_, i) => (roll() < 0.5 ? [[`${use}${i}`, Math.round(roll() * 90 + 10) / 10] as const] : [])),
      );
      program.rows.push({ id: `${use}-${kind}`, lower: 20, upper: 60, terms });
    }
  }
  return { program, costs, parts: things };
}

/** Every choice of things, each a linear program of its own. */
async function brute({ program, costs, parts }: ReturnType<typeof purchase>): Promise<number | null> {
  let least: number | null = null;
  for (let choice = 0; choice < 2 ** parts; choice += 1) {
    const bought = costs.map((_, i) => (choice >> i) & 1);
    const cost = bought.reduce((sum, n, i) => sum + n * costs[i]!, 0);
    if (least !== null && cost >= least) continue;
    const columns = program.columns.map(({ integer: _, ...column }) => {
      const at = column.id.startsWith('buy') ? bought[Number(column.id.slice(3))]! : null;
      return at === null ? column : { ...column, cost: 0, lower: at, upper: at };
    });
    if ((await solve({ columns, rows: program.rows })).verdict === 'optimal') least = cost;
  }
  return least;
}

describe('a proof by cases, each started from the basis of the one before', () => {
  it('equals brute force in 24 seeded purchases, and rests on arithmetic in every one', async () => {
    let impossible = 0;
    for (let seed = 1; seed <= 24; seed += 1) {
      const asked = purchase(seed);
      const least = await brute(asked);
      const found = await solve(asked.program, { mostCases: 1000 });
      if (least === null) {
        impossible += 1;
        expect(found.verdict, `seed ${seed}`).toBe('infeasible');
        continue;
      }
      expect(found, `seed ${seed}`).toMatchObject({ verdict: 'optimal' });
      if (found.verdict !== 'optimal') continue;
      expect(found.objective, `seed ${seed}`).toBeCloseTo(least, 9);
      expect(found.bound, `seed ${seed}`).toBeLessThanOrEqual(least * (1 + 1e-12));
      expect(found.boundBy, `seed ${seed}`).not.toBe('search');
    }
    expect(impossible).toBeLessThan(12);
  });
});
