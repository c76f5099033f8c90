import { describe, expect, it } from 'vitest';
import { type Column, type LinearProgram, type Row, solve } from '../../solver/index.js';
import { dice } from './dice.js';

const whole = (id: string, cost: number, more: Partial<Column> = {}): Column => ({ id, cost, integer: true, ...more });
const equal = (id: string, end: number, terms: Record<string, number>): Row => ({ id, lower: end, upper: end, terms });
const FREE = { lower: Number.NEGATIVE_INFINITY };

/** The proof reckoned again, apart from the solver's code: entries and ends here are whole. */
function expectDivided({ rows }: LinearProgram, { weights, by }: { weights: Record<string, string>; by: string }) {
  const sums = new Map<string, bigint>();
  let [lower, upper] = [0n, 0n];
  for (const [id, text] of Object.entries(weights)) {
    const weight = BigInt(text);
    const row = rows.find((r) => r.id === id)!;
    for (const [column, a] of Object.entries(row.terms))
      sums.set(column, (sums.get(column) ?? 0n) + weight * BigInt(a));
    lower += weight * BigInt(weight > 0n ? row.lower! : row.upper!);
    upper += weight * BigInt(weight > 0n ? row.upper! : row.lower!);
  }
  for (const sum of sums.values()) expect(sum % BigInt(by)).toBe(0n);
  for (let value = lower; value <= upper; value += 1n) expect(value % BigInt(by)).not.toBe(0n);
}

describe('whole numbers that no divisor allows', () => {
  it.each<[string, Column[], Row[]]>([
    ['2x + 4y = 7', [whole('x', 1), whole('y', 1)], [equal('r', 7, { x: 2, y: 4 })]],
    ['the same without any bound', [whole('x', 1, FREE), whole('y', 1, FREE)], [equal('r', 7, { x: 2, y: 4 })]],
    ['7 ≤ 6x + 9y ≤ 8', [whole('x', 0, FREE), whole('y', 1)], [{ id: 'r', lower: 7, upper: 8, terms: { x: 6, y: 9 } }]],
    [
      // both alone can be: their sum is 2x + 2y + 2z = 3
      'x + y = 1 + …: two equalities whose sum is even and must be odd',
      [whole('x', 0, FREE), whole('y', 0, FREE), whole('z', 0, FREE)],
      [equal('r', 1, { x: 1, y: 2, z: 1 }), equal('s', 2, { x: 1, z: 1 })],
    ],
    [
      '4834 a + 4888 b + 5066 c = 98,802,851',
      [whole('a', 4.77), whole('b', 4.5), whole('c', 5.47)],
      [equal('r', 98802851, { a: 4834, b: 4888, c: 5066 })],
    ],
  ])('%s', async (_, columns, rows) => {
    const found = await solve({ columns, rows });
    if (found.verdict !== 'infeasible' || !found.divisor) throw new Error(JSON.stringify(found));
    expect(found.engine).toBe('arithmetic');
    expectDivided({ columns, rows }, found.divisor);
  });

  it('reads decimals as they are written: 0.1x + 0.2y = 0.3 is x + 2y = 3; 0.2x + 0.4y = 0.7 is odd', async () => {
    const columns = [whole('x', 1), whole('y', 1)];
    const three = await solve({ columns, rows: [equal('r', 0.3, { x: 0.1, y: 0.2 })] });
    expect(three).toMatchObject({ verdict: 'optimal', x: { x: 1, y: 1 } });
    const seven = await solve({ columns, rows: [equal('r', 0.7, { x: 0.2, y: 0.4 })] });
    expect(seven.verdict === 'infeasible' && seven.divisor).toMatchObject({ weights: { r: '10' }, by: '2' });
  });

  it('says nothing where a column is not whole, or a multiple lies between the ends', async () => {
    const parts = await solve({
      columns: [whole('x', 1), { id: 'y', cost: 1 }],
      rows: [equal('r', 7, { x: 2, y: 4 })],
    });
    expect(parts).toMatchObject({ verdict: 'optimal', objective: 1.75 });
    const wide = await solve({
      columns: [whole('x', 1), whole('y', 1)],
      rows: [{ id: 'r', lower: 7, upper: 8, terms: { x: 2, y: 4 } }],
    });
    expect(wide).toMatchObject({ verdict: 'optimal', objective: 2 });
  });

  it('200 equalities made from a whole point are never called impossible; shifted by half a divisor, always', async () => {
    for (let seed = 1; seed <= 200; seed += 1) {
      const d = dice(seed);
      const by = d.whole(2, 9);
      const columns = Array.from({ length: d.whole(2, 5) }, (_, j) => whole(`x${j}`, 1, { upper: 20 }));
      const terms = Object.fromEntries(columns.map(({ id }) => [id, by * d.whole(1, 30)]));
      const end = columns.reduce((sum, { id }) => sum + terms[id]! * d.whole(0, 9), 0);
      const [kept, shifted] = [
        await solve({ columns, rows: [equal('r', end, terms)] }),
        await solve({ columns, rows: [equal('r', end + 1, terms)] }),
      ];
      expect(`${seed}: ${kept.verdict}`).toBe(`${seed}: optimal`);
      expect(`${seed}: ${shifted.verdict}`).toBe(`${seed}: infeasible`);
    }
  });
});

describe('whole numbers at an optimum of 0', () => {
  it('min y − x, 5x − 3y ≤ 2: (0, 0) and (1, 1) cost the same, and nothing costs less', async () => {
    // x ≤ (2 + 3y) / 5 leaves y − x ≥ (2y − 2) / 5, above −1 for y ≥ 0, so whole costs are ≥ 0
    const found = await solve({
      columns: [whole('x', -1), whole('y', 1)],
      rows: [{ id: 'r', upper: 2, terms: { x: 5, y: -3 } }],
    });
    expect(found).toMatchObject({ verdict: 'optimal', objective: 0, bound: 0, gap: 0, boundBy: 'cases' });
  });
});

describe('a search without bounds ends', () => {
  it('a plane that whole points miss, in a program without bounds, is not searched for ever', async () => {
    const found = await solve({
      columns: [whole('x', 1, FREE), whole('y', 1, FREE), whole('z', 0.5, FREE)],
      rows: [{ id: 'r', lower: 1.2, upper: 1.7, terms: { x: 3, y: 6, z: -9 } }],
    });
    expect(found).toMatchObject({ verdict: 'infeasible', divisor: { by: '30', weights: { r: '10' } } });
  });

  it('nodes that run out are told from refusals: the best so far, and `unfinished`', async () => {
    const d = dice(7);
    const columns = Array.from({ length: 40 }, (_, j) => whole(`x${j}`, 0, { upper: 1 }));
    const split = Array.from({ length: 5 }, (_, i): Row => {
      const terms = Object.fromEntries(columns.map(({ id }) => [id, d.whole(1, 99)]));
      const half = Math.floor(Object.values(terms).reduce((a, b) => a + b) / 2);
      return equal(`m${i}`, half, { ...terms, [`over${i}`]: -1, [`under${i}`]: 1 });
    });
    const misses = split.flatMap((_, i): Column[] => [
      { id: `over${i}`, cost: 1 },
      { id: `under${i}`, cost: 1 },
    ]);
    const program = { columns: [...columns, ...misses], rows: split };
    const [once, again] = [await solve(program, { mostNodes: 50 }), await solve(program, { mostNodes: 50 })];
    expect(once).toMatchObject({ verdict: 'uncertified', unfinished: true });
    if (once.verdict !== 'uncertified') throw new Error(once.verdict);
    expect(once.best!.bound).toBeLessThan(once.best!.objective);
    // work is counted, not time: the same end both times
    expect(again).toEqual(once);
  });
});
