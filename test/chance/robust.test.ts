import { litres } from '../../src/units/index.js';
import { describe, expect, it } from 'vitest';
import { limitSpreads, mostTightened, tightened } from '../../src/chance/tightened.js';
import { sureDoses } from '../../src/chance/robust.js';
import { sureness } from '../../src/chance/sure.js';
import { judgedCan } from '../../src/chance/sure-figures.js';
import { amountsOf } from '../../src/formulation/amounts.js';
import type { FeedRequest } from '../../src/feed/request.js';
import { solve } from '../../solver/index.js';
import { powder, pure, request } from '../feed/fixtures.js';
import { randomBench } from '../feed/random-benches.js';
import { sureSays } from '../../src/report/says/sure.js';
import { counted, reached, short } from './enough.js';
import { planOf, salt, usualKit } from './plans.js';
import { programOf } from '../feed/program.js';
import { linearRules } from '../../src/feed/request.js';
import { kitOf } from '../dose/kits.js';

/** One exact salt of 100 mg N per g, 4 L. */
const one = (min: number, max: number): FeedRequest =>
  request([salt('n', { 'NO3-N': 10 })], { N: { min, aim: (min + max) / 2, max } });

describe('tightened limits', () => {
  it('as far as they go by a linear program: by hand for one salt', async () => {
    // 4 g at 0.2 g, 2 % of water and 1 % of grade: √30 % of 100 mg/L; between 90 and 120 mg/L the middle is 15 mg/L from either
    const plan = planOf(one(90, 120), [{ amount: 4, sd: 0.2 }]);
    const spreads = limitSpreads(judgedCan(plan, plan.request));
    expect(await mostTightened(plan.request, spreads, plan)).toBeCloseTo(15 / Math.sqrt(30), 6);
    const inner = tightened(plan.request, spreads, 1);
    expect(inner.programme.bands.N!.min).toBeCloseTo(90 + Math.sqrt(30), 9);
    expect(inner.programme.bands.N!.max).toBeCloseTo(120 - Math.sqrt(30), 9);
  });

  it('never out: a feed that keeps them keeps the feed', async () => {
    let ends = 0;
    for (let seed = 1; seed <= 20; seed += 1) {
      const made = randomBench(seed, 14);
      const verdict = await solve(programOf(made).program);
      if (verdict.verdict !== 'optimal') continue;
      const used = amountsOf(verdict, programOf(made));
      const shelf = made.shelf.filter((_, i) => used.products[i]! > 1e-9);
      const plan = planOf(
        { ...made, shelf },
        used.products.filter((x) => x > 1e-9).map((x) => ({ amount: 4 * x, sd: 0.2 * x })),
        used.waters,
      );
      const spreads = limitSpreads(judgedCan(plan, plan.request));
      const inner = tightened(plan.request, spreads, 0.5);
      for (const [n, band] of Object.entries(plan.request.programme.bands)) {
        const own = inner.programme.bands[n as 'N']!;
        ends += within([own.min, own.max], [band.min, band.max]);
      }
      const rules = linearRules;
      rules(plan.request).forEach((rule, i) => {
        const own = rules(inner)[i]!;
        ends += within([own.lower, own.upper], [rule.lower, rule.upper]);
      });
    }
    expect(ends).toBeGreaterThan(200);
  });
});

describe('sure doses', () => {
  it('reach nine of ten in fresh batches of another seed, on 60 random benches', async () => {
    let [enough, less] = [0, 0];
    for (let seed = 1; enough < 60; seed += 1) {
      const base = randomBench(seed, 16);
      const made = { ...base, header: { ...base.header, batchLitres: litres(seed % 2 === 0 ? 4 : 10) } };
      const found = await sureDoses(made, usualKit, 0.9, { remedies: false });
      if (found.status === 'no feed') continue;
      const fresh = sureness(found.plan, undefined, { batches: 40_000, seed: 1000 + seed, sources: false });
      if (found.status === 'short') {
        less += 1;
        // what is called short falls short, but for the error of counting 40 000 batches (0.0015) and the margin asked for (0.004)
        expect(fresh.share).toBeLessThan(0.91);
        continue;
      }
      enough += 1;
      expect(fresh.share).toBeGreaterThanOrEqual(0.9);
      expect(found.plan.status).toBe('kept');
      expect(found.plan.request.programme.bands).toEqual(made.programme.bands);
    }
    // most benches can be made sure of
    expect(less).toBeLessThan(30);
  });

  it('cost no more than they must: of one salt, the cheapest dose whose shortfall is one in ten', async () => {
    const priced = { ...one(90, 200), shelf: [salt('n', { 'NO3-N': 10 }).with({ price: 10, pack: 1000 })] };
    const found = reached(await sureDoses(priced, kitOf({ spoons: [], scaleStepGrams: 0.01 }), 0.9));
    // deviation: 2 % of water, 1 % of grade, 0.0125 g of about 3.7 g: 2.26 %; Φ(1.2816) = 0.9 (standard normal table), so 90/(1 − 0.029) = 92.7 mg/L
    // or 3.71 g; four bisections of k and the margin of the count leave 2 %
    const grams = found.plan.items[0]!.chosen.amount;
    expect(grams).toBeGreaterThan(3.7);
    expect(grams).toBeLessThan(3.71 * 1.02);
    expect(found.extraCostPerLitre).toBeCloseTo(((grams - 3.6) * 0.01) / 4, 9);
    expect(sureSays(found)).toMatch(/costs .* EUR per litre more/);
  });

  it('are the plain doses where those do', async () => {
    const found = await sureDoses(one(10, 1000), usualKit, 0.9, {});
    // the cheapest dose lies on the floor, so even wide bands ask for a step in; a shelf with nothing to gain does not
    expect(found.status).toBe('reached');
    const easy = reached(await sureDoses(request([], {}), usualKit, 0.9));
    expect(easy).toMatchObject({ tightened: 0, share: 1 });
    expect(sureSays(easy)).toMatch(/no extra cost/);
  });

  it('say what is to blame where no doses reach it, and what would help', async () => {
    const spoons = { spoons: usualKit.spoons };
    const coarse = { ...one(90, 110), shelf: [salt('n', { 'NO3-N': 10 }).with({ bulkDensity: 1 })] };
    const found = short(await sureDoses(coarse, spoons, 0.95));
    expect(found.share).toBeLessThan(0.95);
    expect(found.plan.items).toHaveLength(1);
    expect(['spoons', 'bulk density']).toContain(found.sureness.sources[0]!.source);
    expect(found.blame).toEqual(found.sureness.sources[0]);
    expect(sureSays(found)).toMatch(/Most to blame is the (spread of level spoons|bulk density)/);
    const scale = found.remedies.find((remedy) => remedy.kind === 'scale')!;
    expect(scale.share).toBeGreaterThan(0.95);
    const mended = await sureDoses(coarse, kitOf({ ...spoons, scaleStepGrams: 0.01 }), 0.95);
    expect(mended.status).toBe('reached');
  });

  it('are refused for a share that is none', async () => {
    for (const share of [0, 1, 1.5, -1, Number.NaN])
      await expect(sureDoses(one(90, 110), usualKit, share)).rejects.toThrow(/share/);
  });

  it('say so where there is no feed at all', async () => {
    const none = await sureDoses(request([powder('x', { K: 10 })], { N: { min: 50 } }), usualKit, 0.9);
    expect(none).toEqual({ status: 'no feed', wanted: 0.9 });
  });

  it('are closest to the aims where that is the goal, and say what closeness is lost', async () => {
    const shelf = [salt('n', { 'NO3-N': 10 }), salt('k', { K: 10 })];
    const near: FeedRequest = {
      ...request(shelf, { N: { min: 80, aim: 80, max: 120 }, K: { min: 40, aim: 50, max: 60 } }),
      goal: 'closest',
    };
    const found = reached(await sureDoses(near, usualKit, 0.9));
    expect(found.extraDeviation).toBeGreaterThan(0.01);
    expect(found.extraDeviation).toBeLessThan(0.1);
    expect(sureSays(found)).toMatch(/largest miss from an aim/);
  });

  it('the same twice', async () => {
    const made = randomBench(6, 16);
    expect(await sureDoses(made, usualKit, 0.9)).toEqual(await sureDoses(made, usualKit, 0.9));
  });

  it('no spread is left where water alone is fed', async () => {
    const plain = counted(await sureDoses({ ...request([], {}), waters: [pure] }, { spoons: [] }, 0.999));
    expect(plain.share).toBe(1);
  });
});

type Ends = readonly [lower: number | undefined, upper: number | undefined];

/** Neither end lies outside; counts the ends that there are. */
function within([lower, upper]: Ends, outer: Ends): number {
  if (outer[0] !== undefined) expect(lower).toBeGreaterThanOrEqual(outer[0]);
  if (outer[1] !== undefined) expect(upper).toBeLessThanOrEqual(outer[1]);
  return outer.filter((end) => end !== undefined).length;
}
