import { describe, expect, it } from 'vitest';
import { blend } from '../../src/blend/blend.js';
import { reach } from '../../src/blend/reach.js';
import { powder, request } from '../feed/fixtures.js';
import { cannot } from '../feed/answers.js';
import { whyNotJson } from '../../src/report/json/why-not.js';
import { limitSays } from '../../src/report/says/limits.js';

// Invented labels with round figures, so that each expected value is a hand calculation written beside it.
const calcium = powder('calcium', { 'NO3-N': 15, Ca: 20 }, { price: 3, pack: 1000 });
const magnesium = powder('magnesium', { Mg: 10, S: 13 }, { price: 2, pack: 1000 });
const line = <T extends { element: string }>(lines: T[], element: string): T =>
  lines.find((l) => l.element === element)!;

describe('reach', () => {
  it('finds both ends with the other limits kept and with the caps alone (hand calculation)', async () => {
    // N 75…150 from calcium nitrate is 0.5…1 g/L, so Ca 100…200; Mg ≥ 20 is 0.2 g/L, S ≤ 39 is 0.3 g/L, so Mg ≤ 30
    const bands = { N: { min: 75, max: 150 }, Ca: { min: 50, max: 120 }, Mg: { min: 20 }, S: { max: 39 } };
    const result = await reach(request([calcium, magnesium], bands), 'shelf');
    expect(line(result.elements, 'Ca')).toMatchObject({
      whole: { lowest: expect.closeTo(100, 6), highest: expect.closeTo(200, 6) },
      reachable: true,
    });
    expect(line(result.elements, 'Ca').capsOnly).toMatchObject({ lowest: 0, highest: expect.closeTo(200, 6) });
    expect(line(result.elements, 'Ca').limitedBy!.map(limitSays)).toEqual(['N ≤ 150 mg/L']);
    expect(line(result.elements, 'Mg')).toMatchObject({ whole: { lowest: 0, highest: expect.closeTo(30, 6) } });
    expect(line(result.elements, 'Mg').limitedBy!.map(limitSays)).toEqual(['S ≤ 39 mg/L']);
    expect(result.status).toBe('together');
  });

  it('says what cannot be reached and what stops it', async () => {
    // Ca ≥ 250 needs 1.25 g/L of calcium nitrate, which brings N 187.5 > 150
    const result = await reach(request([calcium], { N: { min: 75, max: 150 }, Ca: { min: 250 } }), 'shelf');
    expect(line(result.elements, 'Ca')).toMatchObject({
      whole: { highest: expect.closeTo(200, 6) },
      reachable: false,
      limitedBy: [{ kind: 'nutrient', nutrient: 'N', end: 'most', bound: 150, owner: 'programme' }],
    });
    expect(result.status).toBe('apart');
  });

  it('reports an element that nothing caps as open above', async () => {
    const result = await reach(request([magnesium], { Mg: { min: 10 } }), 'shelf');
    expect(line(result.elements, 'Mg')).toMatchObject({
      whole: { highest: null },
      reachable: true,
      limitedBy: null,
    });
  });
});

describe('ways out of a conflict', () => {
  it('gives a share rule’s way out as a share (hand calculation)', async () => {
    // grade: 14 % NO3-N, 1 % NH4-N, 20 % Ca: the least NH4 share with it is 1/15; nitrate alone has no Ca
    const grade = powder('grade', { 'NO3-N': 14, 'NH4-N': 1, Ca: 20 }, { price: 1, pack: 1000 });
    const nitrate = powder('nitrate', { 'NO3-N': 14 }, { price: 1, pack: 1000 });
    const rule = {
      kind: 'linear' as const,
      text: 'NH4 <= 0 * N',
      terms: { 'NH4-N': 1 },
      upper: 0,
      from: { owner: 'you' as const },
    };
    const bands = { N: { min: 50, max: 100 }, Ca: { min: 40, max: 80 } };
    const result = cannot(await blend(request([grade, nitrate], bands, { rules: [rule] })));
    const { conflict, relaxations } = whyNotJson(result);
    expect(conflict.map((c) => c.limit).sort()).toEqual(['Ca ≥ 40 mg/L', 'NH4 <= 0 * N']);
    expect(conflict.find((c) => c.limit.startsWith('Ca'))!.because).toEqual([
      'Ca can only come from grade, which brings 10 mg of NH4-N per 200 mg of Ca; NH4 <= 0 * N allows none',
    ]);
    // Ca 40 takes 0.2 g/L of grade = NH4-N 2 mg/L; against N up to 100 that is 2 %
    const share = relaxations.find((r) => r.limit.startsWith('NH4'))!;
    expect(share.to).toBeCloseTo(0.02, 6);
    expect(share.change).toBe('NH4 share of N 2 % instead of 0 %');
    expect(relaxations.find((r) => r.limit.startsWith('Ca'))!.to).toBeCloseTo(0, 6);
    const floor = { kind: 'nutrient', nutrient: 'Ca', end: 'least', bound: 40, owner: 'programme' };
    expect(result.nearest!.misses).toEqual([{ limit: floor, value: 0, bound: 40 }]);
  });
});
