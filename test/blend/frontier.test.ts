import { describe, expect, it } from 'vitest';
import { solve } from '../../solver/index.js';
import { blend } from '../../src/blend/blend.js';
import { frontier } from '../../src/blend/frontier.js';
import { frontierProgram } from '../../src/blend/frontier-program.js';
import { powder, request } from '../feed/fixtures.js';
import { benches } from '../feed/random-benches.js';
import type { Proof } from '../../src/feed/proof.js';
import { made } from '../feed/answers.js';
import { programOf } from '../feed/program.js';

describe('cost against closeness', () => {
  it('has the vertices of a hand calculation', async () => {
    // N aim 100 (50…150). cheap: 100 mg/g N, 1 EUR/kg; K aim 50 from dear only: 100 mg/g K, 4 EUR/kg; K has no floor.
    // A miss t costs N: 100 (1 − t) mg = (1 − t) g of cheap, K: 50 (1 − t) mg = 0.5 (1 − t) g of dear, until N meets its floor at t = 0.5;
    // from there N stays 0.5 g and only K goes on falling: cost 0.0005 + 0.002 (1 − t), to t = 1 without any dear.
    const cheap = powder('cheap', { 'NO3-N': 10 }, { price: 1, pack: 1000 });
    const dear = powder('dear', { K: 10 }, { price: 4, pack: 1000 });
    const bands = { N: { min: 50, aim: 100, max: 150 }, K: { aim: 50 } };
    const result = made(await frontier(request([cheap, dear], bands)));
    expect(result.points.map((p) => [p.miss, p.cost])).toEqual([
      [expect.closeTo(0, 9), expect.closeTo(0.003, 9)],
      [expect.closeTo(0.5, 9), expect.closeTo(0.0015, 9)],
      [expect.closeTo(1, 9), expect.closeTo(0.0005, 9)],
    ]);
    // each percentage point: 0.003 / 100 before the floor, 0.002 / 100 after
    expect(result.points.map((p) => p.costOfCloser)).toEqual([
      expect.closeTo(0.00003, 9),
      expect.closeTo(0.00002, 9),
      null,
    ]);
    expect(result.points[1]!.misses).toEqual([
      { element: 'N', side: 'below' },
      { element: 'K', side: 'below' },
    ]);
  });

  it('is one point where the cheapest mix is the closest, and none where no mix exists', async () => {
    const only = powder('only', { 'NO3-N': 10 }, { price: 1, pack: 1000 });
    const one = made(await frontier(request([only], { N: { min: 100, aim: 100, max: 150 } })));
    expect(one.points).toMatchObject([{ miss: 0, costOfCloser: null }]);
    const none = await frontier(request([only], { N: { min: 100, aim: 100 }, K: { min: 10, aim: 20 } }));
    expect(none).toMatchObject({ status: 'cannot', proof: { verdict: 'infeasible' } });
    expect(none).not.toHaveProperty('points');
  });

  it('of 50 random benches: ends as blend has them, vertices bent one way, and between them nothing better', async () => {
    let segments = 0;
    let ends = 0;
    for (const { seed, request: asked } of await benches(50, true, 41_000)) {
      const result = made(await frontier(asked));
      const { points } = result;
      const cheapest = await blend(asked, { prices: false });
      const closest = await blend({ ...asked, goal: 'closest' });
      // both sides carry the certificate's 1e-6
      // (where the EC cap holds a mix back, each command linearises it at its own mix; the difference is theirs, not the curve's)
      if (!isLinearised(cheapest.proof) && !isLinearised(result.proof)) {
        expect(Math.abs(points.at(-1)!.cost - cheapest.proof.figures.found!), `${seed}`).toBeLessThanOrEqual(
          2e-6 * cheapest.proof.figures.found!,
        );
        ends += 1;
      }
      if (!isLinearised(closest.proof) && !isLinearised(result.proof)) {
        expect(Math.abs(points[0]!.miss - closest.proof.stages[0]!.found), `${seed}`).toBeLessThanOrEqual(2e-6);
        ends += 1;
      } else continue;
      const program = frontierProgram(programOf(asked));
      for (const [i, a] of points.slice(0, -1).entries()) {
        const b = points[i + 1]!;
        expect(b.miss, `${seed}`).toBeGreaterThan(a.miss);
        expect(b.cost, `${seed}`).toBeLessThan(a.cost);
        if (b.costOfCloser !== null) expect(b.costOfCloser, `${seed}`).toBeLessThan(a.costOfCloser! * (1 + 1e-6));
        // the direct question, with the miss fixed half way and a third of the way: an independent path to the same line
        for (const part of [0.5, 1 / 3]) {
          const at = a.miss + part * (b.miss - a.miss);
          const answer = await solve({
            ...program,
            columns: program.columns.map((c) => (c.id === 'worst' ? { ...c, upper: at } : c)),
          });
          expect(answer.verdict).toBe('optimal');
          if (answer.verdict !== 'optimal') continue;
          const line = a.cost + part * (b.cost - a.cost);
          expect(Math.abs(answer.objective / line - 1), `${seed} at ${at}`).toBeLessThanOrEqual(3e-6);
        }
        segments += 1;
      }
    }
    expect(ends).toBeGreaterThan(60);
    expect(segments).toBeGreaterThan(100);
  });
});

const isLinearised = ({ settled }: Proof): boolean => 'ec' in settled && settled.ec !== null;
