import { describe, expect, it } from 'vitest';
import { seeded } from '../../src/meter/matrix.js';
import type { SpoonWeight } from '../../src/meter/spoon-weight.js';
import { weighOnScale } from '../../src/meter/weigh.js';
import { millilitres } from '../../src/units/index.js';

const RUNS = 2000;

describe('level spoons on a scale', () => {
  // nine of ten is what the range says; 2000 runs vary by 0.7 % (binomial)
  it.each([
    ['a 1 g scale', 1],
    ['a 0.1 g scale', 0.1],
    ['a 0.01 g scale', 0.01],
  ])('the truth lies within the range in 87 to 94 of 100 trials: %s', (_, step) => {
    const random = seeded(5);
    let inside = 0;
    for (let run = 0; run < RUNS; run += 1) {
      const each = 0.5 + 3 * random.uniform();
      const spooned = Array.from({ length: 10 }, () => each * (1 + 0.08 * random.normal())).reduce((a, b) => a + b);
      const bowl = 40 * random.uniform();
      const show = (grams: number): number => step * Math.round((grams * scale) / step);
      const scale = 1 + 0.01 * random.normal();
      const grams = show(bowl + spooned) - show(bowl);
      const trial = { id: 'a', spoon: '1/4 tsp', millilitres: millilitres(each / 0.95), count: 10, grams, step };
      const weighed = weighOnScale(trial) as SpoonWeight;
      if (weighed.low <= each && each <= weighed.high) inside += 1;
    }
    expect(inside / RUNS).toBeGreaterThanOrEqual(0.87);
    expect(inside / RUNS).toBeLessThanOrEqual(0.94);
  });

  it('a weight that no powder has tells nothing', () => {
    const trial = { id: 'a', spoon: '1/4 tsp', millilitres: millilitres(1.23), count: 10, grams: 100, step: 1 };
    expect(weighOnScale(trial)).toMatchObject({ status: 'not weighed', reason: 'no such powder' });
  });
});
