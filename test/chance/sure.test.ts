import { describe, expect, it } from 'vitest';
import { drawBatches, endsIn, figureIn, momentsOf } from '../../src/chance/batches.js';
import { deviates, NINETY } from '../../src/chance/deviates.js';
import { labelSpreads } from '../../src/chance/label-spread.js';
import { ecFigure, judgedLimits } from '../../src/chance/sure-figures.js';
import { sureness } from '../../src/chance/sure.js';
import { nutrientFigure, nutrientsOf, type VaryingCan, varyingCan } from '../../src/chance/varying.js';
import { fullEc } from '../../src/formulation/ec-cap.js';
import { powder, pure, request, water } from '../feed/fixtures.js';
import { plannedBenches, planOf, salt, scaled } from './plans.js';
import { missName } from '../../src/report/says/limits.js';

const plans = await plannedBenches(8, 1);

/** Of n independent draws the mean strays by sd/√n and the sd by sd/√(2n); four of those are left (1 in 16 000). */
const FOUR = 4;

describe('deviates', () => {
  const n = 100_000;
  const z = deviates(7, 'dose a', n);
  const mean = (values: Float64Array): number => values.reduce((sum, x) => sum + x, 0) / values.length;

  it('are standard normal', () => {
    expect(Math.abs(mean(z))).toBeLessThan(FOUR / Math.sqrt(n));
    expect(Math.abs(Math.sqrt(mean(z.map((x) => x * x))) - 1)).toBeLessThan(FOUR / Math.sqrt(2 * n));
    // standard normal table: 95 % lie below 1.6449
    const below = z.filter((x) => x < NINETY).length / n;
    expect(Math.abs(below - 0.95)).toBeLessThan(FOUR * Math.sqrt((0.95 * 0.05) / n));
  });

  it('are the same for the same name and independent for another', () => {
    expect(deviates(7, 'dose a', 10)).toEqual(z.subarray(0, 10));
    for (const [seed, name] of [
      [7, 'dose b'],
      [8, 'dose a'],
    ] as const) {
      const other = deviates(seed, name, n);
      expect(Math.abs(mean(z.map((x, i) => x * other[i]!)))).toBeLessThan(FOUR / Math.sqrt(n));
    }
  });
});

describe('labels', () => {
  it('lie half an allowance over the guarantee, with the allowance two deviations below that', () => {
    // 20 % N: allowance 0.73 % (AAPFCO, from memory); 10 % Ca: 0.2 + 5 % (New Hampshire Agr 1105.04)
    const found = new Map(labelSpreads(powder('x', { N: 20, Ca: 10 })).map((s) => [s.nutrient, s]));
    expect(found.get('N')!.shift).toBeCloseTo(3.65, 9);
    expect(found.get('N')!.shift - 2 * found.get('N')!.sd).toBeCloseTo(-7.3, 9);
    expect(found.get('Ca')!.shift).toBeCloseTo(3.5, 9);
    expect(found.get('Ca')!.sd).toBeCloseTo(0.75 * 7, 9);
  });

  it('forms of nitrogen move with the total, a salt as a whole', () => {
    const forms = labelSpreads(powder('x', { 'NO3-N': 12, 'NH4-N': 8 }));
    expect(new Set(forms.map((s) => s.factor))).toEqual(new Set(['N']));
    expect(forms.reduce((sum, s) => sum + (s.nutrient === 'N' ? -s.sd : s.sd), 0)).toBeCloseTo(0, 9);
    expect(labelSpreads(salt('s', { 'NO3-N': 13.9, K: 38.7 })).map((s) => [s.factor, s.shift])).toEqual([
      ['grade', 0],
      ['grade', 0],
      ['grade', 0],
    ]);
  });

  it('never by more than the label can mean', () => {
    // 0.0005 % Mo: the allowance is half of it; 0.001 % Cu: five times of it, so half is taken
    for (const s of labelSpreads(powder('x', { Mo: 0.0005, Cu: 0.001 })))
      expect(s.sd).toBeLessThanOrEqual(s.shift * 1.5 + 1e-12);
    const cu = labelSpreads(powder('x', { Cu: 0.001 }))[0]!;
    expect(cu.shift).toBeCloseTo(0.01 / 4, 12);
  });
});

describe('intervals', () => {
  const n = 30_000;
  const onlyDoses = (can: VaryingCan): VaryingCan => ({
    ...can,
    items: can.items.map((item) => ({ ...item, label: new Map() })),
    volume: { ...can.volume, by: 0 },
    waters: can.waters.map((w) => ({ ...w, part: null })),
  });

  it('no batch passes the ends that are told without drawing what labels vary by', () => {
    for (const { plan } of plans) {
      const can = varyingCan(plan, plan.request);
      const drawn = drawBatches(can, n, 7);
      const ec = ecFigure(can, plan.amounts, plan.request);
      for (const { figure } of judgedLimits(can, plan.request, ec)) {
        const { least, most } = endsIn(drawn, figure);
        const values = figureIn(drawn, figure);
        const dust = 1e-12 * (Math.abs(least) + Math.abs(most));
        expect(values.every((value) => value >= least - dust && value <= most + dust)).toBe(true);
      }
    }
  });

  it('where doses alone vary, mean and deviation are exact: the simulation agrees within its own error', () => {
    for (const { plan } of plans) {
      const can = onlyDoses(varyingCan(plan, plan.request));
      const drawn = drawBatches(can, n, 11);
      const figures = [
        ...nutrientsOf(can).map((nutrient) => nutrientFigure(can, new Map([[nutrient, 1]]), 'floor')),
        ecFigure(can, plan.amounts, plan.request),
        ...judgedLimits(can, plan.request, ecFigure(can, plan.amounts, plan.request)).map((l) => l.figure),
      ];
      for (const figure of figures) {
        const told = momentsOf(can, figure);
        const seen = moments(figureIn(drawn, figure));
        // adding so many figures up leaves dust
        const dust = 1e-9 * Math.abs(told.mean) + 1e-12;
        expect(Math.abs(seen.mean - told.mean)).toBeLessThanOrEqual((FOUR * told.sd) / Math.sqrt(n) + dust);
        expect(Math.abs(seen.sd - told.sd)).toBeLessThanOrEqual((FOUR * told.sd) / Math.sqrt(2 * n) + dust);
      }
    }
  });

  /**
   * How far a tail may be from 5 %: three standard errors of the count, and what skewness makes of a normal interval (the first term of the
   * Cornish-Fisher expansion, from memory), for products of two spreads are left out of the intervals.
   */
  const apart = (drawn: ArrayLike<number>): number => {
    const all = Array.from(drawn);
    const mean = all.reduce((sum, x) => sum + x, 0) / n;
    const moment = (k: number): number => all.reduce((sum, x) => sum + (x - mean) ** k, 0) / n;
    const skewness = moment(2) > 0 ? Math.abs(moment(3)) / moment(2) ** 1.5 : 0;
    const [z, density] = [1.645, 0.1031];
    return 3 * Math.sqrt((0.05 * 0.95) / n) + (skewness / 6) * (z ** 2 - 1) * density + 0.002;
  };

  it('with labels and water in it, nine of ten simulated cans lie within', () => {
    for (const { plan } of plans) {
      const can = varyingCan(plan, plan.request);
      const drawn = drawBatches(can, n, 12);
      for (const { element, low, high } of sureness(plan).elements) {
        const floor = nutrientFigure(can, new Map([[element, 1]]), 'floor');
        const cap = nutrientFigure(can, new Map([[element, 1]]), 'cap');
        const [least, most] = [figureIn(drawn, floor), figureIn(drawn, cap)];
        const below = least.filter((x) => x < low * (1 - 1e-9)).length / n;
        const above = most.filter((x) => x > high * (1 + 1e-9)).length / n;
        expect(Math.abs(below - (momentsOf(can, floor).sd > 0 ? 0.05 : 0)), element).toBeLessThan(apart(least));
        expect(Math.abs(above - (momentsOf(can, cap).sd > 0 ? 0.05 : 0)), element).toBeLessThan(apart(most));
      }
    }
  });

  it('the EC linearisation is near the full model over the doses that occur', () => {
    let compared = 0;
    for (const { plan } of plans) {
      const { request: feed, amounts } = plan;
      const can = varyingCan(plan, feed);
      const still = { ...can, items: can.items.map((item) => ({ ...item, label: new Map() })) };
      const drawn = drawBatches(still, 40, 13);
      const byPlane = figureIn(drawn, ecFigure(still, amounts, feed));
      for (let b = 0; b < drawn.count; b += 1) {
        const products = feed.shelf.map((product) => {
          const i = can.items.findIndex((item) => item.product.id === product.id);
          return i < 0 ? 0 : drawn.doses[i]![b]!;
        });
        const waters = amounts.waters.map((share) => share);
        const full = fullEc({ products, waters }, feed);
        // doses stray by up to a fifth here; half a per cent is a third of what the model itself may be off
        if (can.waters.length === 1) {
          expect(Math.abs(byPlane[b]! / full - 1)).toBeLessThan(0.005);
          compared += 1;
        }
      }
      const { low, high } = sureness(plan, feed, { sources: false }).ec;
      expect(low).toBeLessThan(plan.mix.ec.mSPerCm * 0.99);
      expect(high).toBeGreaterThan(plan.mix.ec.mSPerCm * 1.01);
    }
    expect(compared).toBeGreaterThan(80);
  });

  it('span what a label leaves open', () => {
    const { composition } = salt('open', { 'NO3-N': 10 });
    const content = { ...composition.content, S: { low: 0, stated: null, high: 50 } };
    const open = powder('open', {}, { formula: 'KNO3', composition: { ...composition, content } });
    const found = sureness(planOf(request([open], {}), [{ amount: 4, sd: 0 }])).elements.find(
      (e) => e.element === 'S',
    )!;
    expect(found.low).toBe(0);
    // 4 g in 4 L: up to 50 mg/L, and 2 % of water
    expect(found.high).toBeCloseTo(50 * (1 + NINETY * 0.02), 6);
  });
});

describe('share', () => {
  const band = (low: number, high: number) => request([salt('n', { 'NO3-N': 10 })], { N: { min: low, max: high } });
  const at = (sd: number, low = 90, high = 110) =>
    sureness(planOf(band(low, high), [{ amount: 4, sd }]), undefined, { batches: 40_000 });

  it('agrees with the normal table', () => {
    // dose 5 %, water 2 %, grade 1 %: √30 % of 100 mg/L; 10 mg/L are 1.826 deviations, Φ = 0.9661 (standard normal table), 2Φ − 1 = 0.9322
    // 0.005: four standard errors of the count, and the skew that dividing by the volume brings
    expect(Math.abs(at(0.2).share - 0.9322)).toBeLessThan(0.006);
  });

  it('falls as any spread grows, and is 1 where bands are wide', () => {
    const shares = [0, 0.1, 0.2, 0.3, 0.6].map((sd) => at(sd).share);
    expect(shares).toEqual([...shares].sort((a, b) => b - a));
    expect(shares[0]).toBeGreaterThan(shares[4]! + 0.3);
    expect(at(0.2, 10, 1000).share).toBe(1);
    for (const { plan } of plans) {
      const [still, usual, wild] = [0, 1, 5].map((times) => sureness(scaled(plan, times)).share) as [
        number,
        number,
        number,
      ];
      expect(wild).toBeLessThan(still + 0.02);
      expect(wild).toBeLessThan(usual + 0.02);
    }
  });

  it('without any spread every kept plan keeps everything', () => {
    let ends = 0;
    for (const { plan } of plans.filter(({ plan }) => plan.status === 'kept')) {
      const can = varyingCan(plan, plan.request);
      const drawn = drawBatches(
        can,
        4,
        1,
        new Set(['spoons', 'drops', 'syringe', 'scale', 'bulk density', 'labels', 'water']),
      );
      for (const { figure, limit } of judgedLimits(can, plan.request, ecFigure(can, plan.amounts, plan.request))) {
        const [value] = figureIn(drawn, figure);
        const size = Math.max(1, Math.abs(value!)) * 1e-6;
        if (limit.end === 'least') expect(value).toBeGreaterThanOrEqual(limit.bound - size);
        else expect(value).toBeLessThanOrEqual(limit.bound + size);
        ends += 1;
      }
    }
    expect(ends).toBeGreaterThan(50);
  });

  it('says what is at risk and where it comes from', () => {
    const found = at(0.4, 95);
    expect(found.risks.map(({ limit }) => missName(limit))).toEqual(['N min', 'N max']);
    expect(found.sources[0]!.source).toBe('scale');
    expect(found.sources[0]!.shareWithout).toBeGreaterThan(found.share + 0.3);
    expect(found.share + found.risks.reduce((sum, r) => sum + r.share, 0)).toBeCloseTo(1, 9);
  });

  it('one pair of hands errs alike with every spoon', () => {
    const two = request([salt('a', { 'NO3-N': 10 }), salt('b', { 'NO3-N': 10 })], {});
    const plan = planOf(two, [
      { amount: 2, sd: 0.1, tool: 'spoon' },
      { amount: 2, sd: 0.1, tool: 'spoon' },
    ]);
    const hands = plan.tools.find((t) => t.kind === 'spoon')!;
    expect(hands.common).toBe(0.05);
    // all of the spread is the common habit: 5 % of the whole, not 5 %/√2
    const n = sureness(plan).elements.find((e) => e.element === 'N')!;
    expect((n.high - n.low) / 2 / NINETY / 100).toBeCloseTo(Math.hypot(0.05, 0.02, 0.01 / Math.SQRT2), 6);
  });

  it('two waters trade against each other', () => {
    const tap = water({ id: 'tap', mgPerLitre: { Ca: 100 } });
    const plan = planOf({ ...request([], {}), waters: [pure, tap] }, [], [0.5, 0.5]);
    const ca = sureness(plan).elements.find((e) => e.element === 'Ca')!;
    // half the can is measured to 2 %: 50 ± 1 mg/L
    expect((ca.high - ca.low) / 2 / NINETY).toBeCloseTo(1, 9);
  });
});

describe('edges', () => {
  it('nothing but water', () => {
    const found = sureness(planOf(request([], {}), []));
    expect(found).toMatchObject({ share: 1, elements: [], risks: [] });
    expect(JSON.stringify(found)).not.toMatch(/null|NaN|Infinity/);
  });

  it('the same twice, nearly the same with another seed', () => {
    for (const { plan } of plans) {
      const one = sureness(plan, undefined, { seed: 3 });
      expect(sureness(plan, undefined, { seed: 3 })).toEqual(one);
      const other = sureness(plan, undefined, { seed: 4 });
      // five standard errors of a difference of counts of 4000
      expect(Math.abs(other.share - one.share)).toBeLessThan(5 * Math.sqrt((2 * 0.25) / 4000));
      expect(other.elements).toEqual(one.elements);
    }
  });

  it('ids that mean something to JavaScript are ids', () => {
    const odd = request([salt('__proto__', { 'NO3-N': 10 })], { N: { min: 90 } });
    expect(sureness(planOf(odd, [{ amount: 4.4, sd: 0.04 }])).share).toBeGreaterThan(0.99);
  });
});

function moments(values: Float64Array): { mean: number; sd: number } {
  const mean = values.reduce((sum, x) => sum + x, 0) / values.length;
  return { mean, sd: Math.sqrt(values.reduce((sum, x) => sum + (x - mean) ** 2, 0) / values.length) };
}
