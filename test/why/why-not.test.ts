import { describe, expect, it } from 'vitest';
import { type LinearProgram, type Row, solve } from '../../solver/index.js';
import { conflictOf } from '../../src/why/conflict.js';
import type { Formulated } from '../../src/formulation/formulate.js';
import { blend } from '../../src/blend/blend.js';
import type { FeedRequest } from '../../src/feed/request.js';
import type { FarkasSum, Limit, LimitMove, Relaxation } from '../../src/feed/results.js';
import { whyNotJson } from '../../src/report/json/why-not.js';
import { roundedTo } from '../../src/report/says/rounded.js';
import { waySays } from '../../src/report/says/why-not.js';
import { independent } from '../solver/independent.js';
import { cannot } from '../feed/answers.js';
import { powder, pure, request, water } from '../feed/fixtures.js';
import { benches } from '../feed/random-benches.js';
import { firstOf, programOf } from '../feed/program.js';

const calcium = powder('calcium', { 'NO3-N': 14.4, 'NH4-N': 1.1, Ca: 19 }, { price: 3, pack: 1000 });
const whyOf = (asked: FeedRequest) => conflictOf(asked, firstOf(asked));

const none = {
  kind: 'linear' as const,
  text: 'NH4 <= 0 * N',
  terms: { 'NH4-N': 1 },
  upper: 0,
  from: { owner: 'you' as const },
};

describe('why not, by hand', () => {
  it('names the product behind each limit, the sum that proves it, and the way out in the grower’s units', async () => {
    // Ca ≥ 38 needs 0.2 g/L, which brings N 31 and NH4-N 2.2: a share of 1.1 / 15.5 = 7.097 %
    const found = await whyOf(request([calcium], { Ca: { min: 38 } }, { rules: [none] }));
    const why = whyNotJson(found);
    expect(why.conflict).toEqual([
      {
        limit: 'Ca ≥ 38 mg/L',
        from: 'programme',
        because: [
          'Ca can only come from calcium, which brings 11 mg of NH4-N per 190 mg of Ca; NH4 <= 0 * N allows none',
        ],
      },
      { limit: 'NH4 <= 0 * N', from: 'you', because: ['calcium brings 11 mg of NH4-N with every 190 mg of Ca'] },
    ]);
    expect(why.irreducible).toBe(true);
    // 190 x ≥ 38 less 190 / 11 times 11 x ≤ 0 leaves 0 ≥ 38
    expect(why.farkas).toMatchObject({ asked: expect.closeTo(38, 9), most: 0 });
    expect(why.farkas!.sentence).toBe(
      '1 × (Ca ≥ 38 mg/L) − 17.27 × (NH4 <= 0 * N) must come to at least 38, and nothing counts above 0 in it: together they ask 0 ≥ 38',
    );
    expect(why.relaxations.map((r) => [r.kind, r.change])).toContainEqual([
      'single',
      'NH4 share of N 7.097 % instead of 0 %',
    ]);
  });

  it('tells who pushes against a floor of proportion, and who helps', async () => {
    const urea = powder('urea', { 'urea-N': 46 });
    const mixed = powder('mixed', { 'NO3-N': 6, 'urea-N': 14, K: 20 });
    const floor = {
      kind: 'linear' as const,
      text: 'NO3 >= 0.5 * N',
      terms: { 'NO3-N': 1, N: -0.5 },
      lower: 0,
      from: { owner: 'programme' as const },
    };
    const why = whyNotJson(await whyOf(request([urea, mixed], { K: { min: 50 } }, { rules: [floor] })));
    expect(why.conflict.find((c) => c.limit === 'NO3 >= 0.5 * N')!.because).toEqual([
      'mixed pushes against it: 60 mg of NO3-N to 200 mg of N, where it asks for 100',
      'no product on the shelf helps it',
    ]);
  });

  it('lists everything that is missing at once, with what would bring it', async () => {
    const trace = powder('trace', { Fe: 5, Mo: 0.1 }, { kind: 'micro' });
    const bands = { N: { min: 10 }, Fe: { min: 0.5 }, Mo: { min: 0.01 }, Si: { min: 1 } };
    const why = whyNotJson(await whyOf(request([calcium], bands, { market: [trace] })));
    expect(why.absent).toEqual([
      { element: 'Si', min: 1, broughtBy: [] },
      { element: 'Fe', min: 0.5, broughtBy: ['a trace-element mix'] },
      { element: 'Mo', min: 0.01, broughtBy: ['a trace-element mix'] },
    ]);
    expect(why.conflict).toHaveLength(1);
    const total = why.relaxations.find((r) => r.kind === 'together')!;
    expect(total.moves!.map((m) => m.to)).toEqual([0, 0, 0]);
    expect(why.relaxations.filter((r) => r.kind === 'single')).toEqual([]);
  });

  it('finds the nearest strength, weaker or stronger, and the least share of another water', async () => {
    // 0.05 g/L of calcium is on its label: 9.5 of 19 mg Ca, so half the strength
    const capped = calcium.with({ maxRate: 0.05 });
    const hard = water({ id: 'hard', name: 'Hard water', mgPerLitre: { Ca: 95 } });
    const weak = whyNotJson(await whyOf(request([capped], { Ca: { min: 19 } }, { otherWaters: [pure, hard] })));
    expect(weak.relaxations.find((r) => r.kind === 'strength')).toMatchObject({
      to: expect.closeTo(0.5, 9),
      change: 'strength 50 % instead of 100 %',
    });
    // the other half from the water: 9.5 of 95 mg
    expect(weak.relaxations.find((r) => r.kind === 'water')).toMatchObject({
      to: expect.closeTo(0.1, 9),
      change: '10 % Hard water in the can',
    });
    // the water alone holds Ca 95 where at most 76 may be: a quarter stronger
    const strong = whyNotJson(await whyOf(request([calcium], { Ca: { max: 76 } }, { waters: [hard] })));
    expect(strong.relaxations.find((r) => r.kind === 'strength')).toMatchObject({ to: expect.closeTo(1.25, 9) });
  });

  it('rounds to the side that works', () => {
    expect([roundedTo(18.1278, 'down'), roundedTo(18.1212, 'up'), roundedTo(18.12, 'up'), roundedTo(0, 'up')]).toEqual([
      18.12, 18.13, 18.12, 0,
    ]);
    expect(roundedTo(-0.0123456, 'down')).toBe(-0.01235);
  });

  it('keeps dust out of the nearest blend', async () => {
    const result = cannot(await blend(request([calcium], { N: { min: 10, max: 20 }, Fe: { min: 1 } })));
    for (const item of result.nearest!.items) expect(item.gramsPerLitre!).toBeGreaterThan(1e-6);
  });
});

describe('60 random shelves that cannot', () => {
  it('conflicts are irreducible and proved by their sum; every way out works, and nothing much smaller does', async () => {
    const tally: Record<string, number> = { sums: 0 };
    for (const { seed, request: made } of await benches(60, false, 90_000)) {
      const formulated = programOf(made, { ceilingsAsRows: true });
      const why = await whyOf(made);
      expect(why.irreducible, `${seed}`).toBe(true);
      expect(why.farkas, `${seed}`).not.toBeNull();
      const rows = rowsOf(why.farkas!, formulated);
      contradicts(why.farkas!, rows, formulated.program, `${seed}`);
      tally.sums! += 1;
      const status = async (kept: Row[]) =>
        (await independent({ columns: free(formulated.program).columns, rows: kept })).status;
      expect(await status(rows), `${seed}`).toBe('infeasible');
      for (const row of rows)
        expect(await status(rows.filter((r) => r !== row)), `${seed} without ${row.id}`).toBe('optimal');
      for (const way of why.relaxations) {
        tally[way.kind] = (tally[way.kind] ?? 0) + 1;
        const { limit, change } = waySays(way);
        expect(await works(made, way, 1 + 1e-6), `${seed} ${limit}: ${change}`).toBe(true);
        if (way.kind !== 'together') expect(await works(made, way, 0.98), `${seed} less: ${change}`).toBe(false);
      }
    }
    // the generator must not quietly stop making what it is there to make
    for (const kind of ['single', 'together', 'strength', 'water']) expect(tally[kind], kind).toBeGreaterThan(3);
  });
});

/** The rows that a spelled-out sum speaks of. */
function rowsOf({ terms }: FarkasSum, { limited }: Formulated): Row[] {
  return terms.map(({ limit }) => limited.find((l) => same(l.limit, limit))!.row);
}

const same = (a: Limit, b: Limit): boolean => JSON.stringify(a) === JSON.stringify(b);

/** By arithmetic: each column's sum has the sign that keeps it from helping, or a bound; the right side asks for more. */
function contradicts({ terms, asked, most }: FarkasSum, rows: Row[], { columns }: LinearProgram, here: string): void {
  const sign = (i: number): number => (terms[i]!.end === 'least' ? 1 : -1) * terms[i]!.times;
  const right = rows.reduce((sum, row, i) => sum + sign(i) * (sign(i) > 0 ? row.lower! : row.upper!), 0);
  let left = 0;
  for (const { id, upper = Number.POSITIVE_INFINITY } of columns) {
    const parts = rows.map((row, i) => sign(i) * (row.terms[id] ?? 0));
    const by = parts.reduce((sum, part) => sum + part, 0);
    // what cancels to less than this is rounding of the parts
    if (by > 1e-12 * parts.reduce((sum, part) => sum + Math.abs(part), 0)) left += by * upper;
  }
  expect(Number.isFinite(left), here).toBe(true);
  expect(right, here).toBeGreaterThan(left);
  expect([asked, most], here).toEqual([
    expect.closeTo(right, 9 - Math.ceil(Math.log10(Math.max(1, Math.abs(right))))),
    expect.closeTo(left, 9 - Math.ceil(Math.log10(Math.max(1, Math.abs(left))))),
  ]);
}

function free(program: LinearProgram): LinearProgram {
  return { ...program, columns: program.columns.map((c) => ({ ...c, cost: 0 })) };
}

/** Whether a way out, taken by this part of its length, leaves a mix. */
async function works(made: FeedRequest, way: Relaxation, part: number): Promise<boolean> {
  const along = (from: number, to: number): number => from + (to - from) * part;
  switch (way.kind) {
    case 'strength': {
      const factor = along(way.from, way.to) / made.header.strengthFactor;
      const bands = Object.fromEntries(
        Object.entries(made.programme.bands).map(([n, b]) => [
          n,
          Object.fromEntries(Object.entries(b).map(([end, v]) => [end, v * factor])),
        ]),
      );
      return isFeasible(programOf({ ...made, programme: { ...made.programme, bands } }).program);
    }
    case 'water': {
      const waters = made.otherWaters!.filter(({ name }) => name === way.water);
      const { program } = programOf({ ...made, waters: [...made.waters, ...waters] });
      const other = `w${made.waters.length}`;
      const upper = Math.min(1, along(0, way.to));
      return isFeasible({
        ...program,
        columns: program.columns.map((c) => (c.id === other ? { ...c, lower: 0, upper } : c)),
      });
    }
    case 'products':
      throw new Error('nobody asked for few products');
    default: {
      const moves = way.kind === 'single' ? [way.move] : way.moves;
      const { program, limited } = programOf(made, { ceilingsAsRows: true });
      const rows = limited.map(({ limit, row }) => {
        const move = moves.find((m) => same(m.limit, limit));
        return move ? movedRow(row, made, move, along(move.from, move.to)) : row;
      });
      return isFeasible({ ...program, rows });
    }
  }
}

/** A row with its number, or the number of its proportion, at `to`. */
function movedRow(row: Row, made: FeedRequest, { limit, ratio }: LimitMove, to: number): Row {
  if (!ratio || limit.kind !== 'rule') return row.lower === undefined ? { ...row, upper: to } : { ...row, lower: to };
  const weight = limit.rule.terms[ratio.over]!;
  const rule = { ...limit.rule, terms: { ...limit.rule.terms, [ratio.under]: -to * weight } };
  const changed = programOf({ ...made, programme: { ...made.programme, rules: [] }, rules: [rule] });
  return { ...changed.limited.find((l) => l.limit.kind === 'rule' && l.limit.end === limit.end)!.row, id: row.id };
}

async function isFeasible(program: LinearProgram): Promise<boolean> {
  return (await solve(free(program))).verdict === 'optimal';
}
