import { describe, expect, it } from 'vitest';
import { type Claim, type Engine, highs, type LinearProgram, simplex, solve, type Table } from '../../solver/index.js';

/** Two feeds, a need, a cap: the optimum is a = 2, b = 1, cost 4, multipliers need 2, cap −1. */
const honest: LinearProgram = {
  columns: [
    { id: 'a', cost: 1 },
    { id: 'b', cost: 2 },
  ],
  rows: [
    { id: 'need', lower: 3, terms: { a: 1, b: 1 } },
    { id: 'cap', upper: 2, terms: { a: 1 } },
  ],
};
const impossible: LinearProgram = {
  ...honest,
  columns: [
    { id: 'a', cost: 1 },
    { id: 'b', cost: 2, upper: 0.5 },
  ],
};
const endless: LinearProgram = {
  ...honest,
  columns: [
    { id: 'a', cost: 1 },
    { id: 'b', cost: -2 },
  ],
};
const whole: LinearProgram = {
  columns: [
    { id: 'a', cost: 2, integer: true, upper: 5 },
    { id: 'b', cost: 3, integer: true },
  ],
  rows: [{ id: 'need', lower: 7, terms: { a: 2, b: 2 } }],
};

/** The truth from a real engine, bent. */
const liar = (bend: (claim: Claim, table: Table) => Claim, integers = false): Engine => ({
  name: 'liar',
  integers,
  solve: async (table, limits) => bend(await highs.solve(table, limits), table),
});
const says = (claim: unknown, integers = false): Engine => ({ name: 'liar', integers, solve: () => claim as Claim });
type Bend = [lie: string, (claim: Extract<Claim, { claim: 'optimal' }>, table: Table) => Claim];

const bent: Bend[] = [
  ['a point that breaks a row', (c) => ({ ...c, x: c.x.map((v) => v * 0.99) })],
  ['a point that breaks a row by 1 part in 100,000', (c) => ({ ...c, x: c.x.map((v) => v * (1 - 1e-5)) })],
  ['a point below 0', (c) => ({ ...c, x: c.x.map((v) => -v) })],
  ['a feasible point that is not best', (c) => ({ ...c, x: c.x.map((v, j) => (j === 0 ? 0 : v * 100)) })],
  ['a point of 0', (c) => ({ ...c, x: c.x.map(() => 0) })],
  ['multipliers of 0', (c) => ({ ...c, y: c.y.map(() => 0) })],
  ['multipliers with the wrong sign', (c) => ({ ...c, y: c.y.map((v) => -v) })],
  ['multipliers too large', (c) => ({ ...c, y: c.y.map((v) => v * 1.001) })],
  ['multipliers of another row', (c) => ({ ...c, y: [...c.y].reverse() })],
  ['NaN in the point', (c) => ({ ...c, x: c.x.map(() => Number.NaN) })],
  ['NaN in the multipliers', (c) => ({ ...c, y: c.y.map(() => Number.NaN) })],
  ['Infinity in the point', (c) => ({ ...c, x: c.x.map(() => Number.POSITIVE_INFINITY) })],
  ['Infinity in the multipliers', (c) => ({ ...c, y: c.y.map(() => Number.POSITIVE_INFINITY) })],
  ['a column missing', (c) => ({ ...c, x: c.x.slice(1) })],
  ['a column too many', (c) => ({ ...c, x: [...c.x, 0] })],
  ['a row missing', (c) => ({ ...c, y: c.y.slice(1) })],
  ['no numbers at all', (c) => ({ ...c, x: [], y: [] })],
  ['that nothing fits, by a ray of 0', (_, t) => ({ claim: 'infeasible', ray: t.rows.map(() => 0) })],
  ['that nothing fits, by its multipliers', (c) => ({ claim: 'infeasible', ray: c.y })],
  ['that nothing fits, by a ray of NaN', (_, t) => ({ claim: 'infeasible', ray: t.rows.map(() => Number.NaN) })],
  ['that nothing fits, by half a ray', () => ({ claim: 'infeasible', ray: [1] })],
  ['that the cost falls for ever, nowhere', (c, t) => ({ claim: 'unbounded', x: c.x, ray: t.cost.map(() => 0) })],
  ['that the cost falls for ever, uphill', (c, t) => ({ claim: 'unbounded', x: c.x, ray: t.cost.map(() => 1) })],
  ['that the cost falls for ever, downwards', (c, t) => ({ claim: 'unbounded', x: c.x, ray: t.cost.map(() => -1) })],
  ['an answer to another kind of program', (c) => ({ claim: 'integer', x: c.x, bound: 4, ended: true })],
  ['that it cannot say', () => ({ claim: 'none', why: 'tired' })],
];

describe('every lie is caught', () => {
  it.each(bent)('an engine that claims %s', async (_, bend) => {
    const engine = liar((claim, table) => (claim.claim === 'optimal' ? bend(claim, table) : claim));
    const alone = await solve(honest, { engines: [engine] });
    expect(alone.verdict).toBe('uncertified');
    expect(alone.verdict === 'uncertified' && alone.why).toMatch(/^liar: \S/);
    expect(await solve(honest, { engines: [engine, simplex] })).toMatchObject({
      verdict: 'optimal',
      objective: 4,
      engine: 'javascript-lp-solver',
    });
  });

  it.each<[string, unknown]>([
    ['nothing', undefined],
    ['an unknown kind of claim', { claim: 'perfect' }],
    ['no arrays', { claim: 'optimal', x: null, y: null }],
    ['words', { claim: 'optimal', x: ['2', '1'], y: ['2', '-1'] }],
  ])('an engine that says %s', async (_, claim) => {
    expect((await solve(honest, { engines: [says(claim)] })).verdict).toBe('uncertified');
  });

  it('an engine that throws', async () => {
    const broken: Engine = {
      name: 'broken',
      integers: true,
      solve: () => {
        throw new Error('out of memory');
      },
    };
    expect(await solve(honest, { engines: [broken] })).toEqual({
      verdict: 'uncertified',
      claim: 'none',
      why: 'broken: out of memory',
    });
    expect(await solve(whole, { engines: [broken] })).toMatchObject({ verdict: 'uncertified' });
  });

  it('a program that has no point is not called solved', async () => {
    const engine = says({ claim: 'optimal', x: [2, 1], y: [2, -1] });
    expect((await solve(impossible, { engines: [engine] })).verdict).toBe('uncertified');
    expect((await solve(impossible, { engines: [says({ claim: 'unbounded', x: [2, 1], ray: [0, 1] })] })).verdict).toBe(
      'uncertified',
    );
  });

  it('a program without end is not called solved or impossible', async () => {
    expect((await solve(endless, { engines: [says({ claim: 'optimal', x: [2, 1], y: [2, -1] })] })).verdict).toBe(
      'uncertified',
    );
    expect((await solve(endless, { engines: [says({ claim: 'infeasible', ray: [1, -1] })] })).verdict).toBe(
      'uncertified',
    );
    expect((await solve(endless, { engines: [says({ claim: 'unbounded', x: [0, 0], ray: [0, 1] })] })).verdict).toBe(
      'uncertified',
    );
  });

  it.each<[string, Claim]>([
    ['that is not whole', { claim: 'integer', x: [3.5, 0], bound: 7, ended: true }],
    ['that breaks a row', { claim: 'integer', x: [3, 0], bound: 6, ended: true }],
    ['out of bounds', { claim: 'integer', x: [6, 0], bound: 12, ended: true }],
    ['with a bound above its cost', { claim: 'integer', x: [4, 0], bound: 9, ended: true }],
    ['of NaN', { claim: 'integer', x: [Number.NaN, 0], bound: 8, ended: true }],
    ['with a bound of NaN', { claim: 'integer', x: [4, 0], bound: Number.NaN, ended: true }],
    ['with a column missing', { claim: 'integer', x: [4], bound: 8, ended: true }],
    ['that nothing fits', { claim: 'integer-infeasible' }],
    ['that is whole but not best', { claim: 'integer', x: [5, 0], bound: 10, ended: true }],
  ])('an integer answer %s', async (_, lie) => {
    const engine = liar((claim, table) => (table.integer.some(Boolean) ? unscaled(lie, table) : claim), true);
    expect((await solve(whole, { engines: [engine] })).verdict).toBe('uncertified');
    expect(await solve(whole, { engines: [engine, highs] })).toMatchObject({
      verdict: 'optimal',
      objective: 8,
      engine: 'highs',
    });
  });
});

/** Integer columns keep their unit; costs do not, so a lie about the bound is told in the table's own money. */
function unscaled(lie: Claim, table: Table): Claim {
  return lie.claim === 'integer' ? { ...lie, bound: (lie.bound * table.cost[0]!) / 2 } : lie;
}

/** The engines themselves broken on purpose: were the certificate asleep, these would pass for answers. */
describe('sabotage', () => {
  const broken = (engine: Engine, damage: (table: Table) => Table): Engine => ({
    ...engine,
    solve: (table, limits) => engine.solve(damage(table), limits),
  });
  const damages: [string, (table: Table) => Table][] = [
    ['maximises', (t) => ({ ...t, cost: t.cost.map((c) => -c), upper: t.upper.map(() => 50) })],
    ['mixes up its costs', (t) => ({ ...t, cost: [...t.cost].reverse() })],
    [
      'ignores a row',
      (t) => ({ ...t, rows: t.rows.map((r, i) => (i === 0 ? { ...r, lower: Number.NEGATIVE_INFINITY } : r)) }),
    ],
    [
      'rounds coefficients',
      (t) => ({ ...t, rows: t.rows.map((r) => ({ ...r, by: r.by.map((a) => Math.round(a * 4) / 4 + 0.25) })) }),
    ],
    ['loses a column', (t) => ({ ...t, upper: t.upper.map((u, j) => (j === 0 ? 0 : u)) })],
  ];
  for (const engine of [simplex, highs]) {
    it.each(damages)(`${engine.name} that %s is caught`, async (_, damage) => {
      expect((await solve(honest, { engines: [engine] })).verdict).toBe('optimal');
      expect((await solve(honest, { engines: [broken(engine, damage)] })).verdict).toBe('uncertified');
    });
  }
});
