import { expect, it } from 'vitest';
import { solve } from '../../solver/index.js';

it('a slope of 1e-13 on a column without any bound does not pass for 0: by fractions this falls for ever', async () => {
  const found = await solve({
    columns: [
      { id: 'a', cost: -1.9999999999997995 },
      { id: 'b', cost: -3 },
      { id: 'c', cost: 1000 },
      { id: 'd', cost: 12 },
    ],
    rows: [
      {
        id: 'r',
        upper: 1.378332621223862e-12,
        terms: { a: -2.000000000001123, b: -9.00000000001171, c: 999.9999999991662, d: 9.000000000000522 },
      },
      { id: 's', upper: 0, terms: { a: 0.3333333333329655, b: 1, c: -333.3333333333333, d: -2 } },
      { id: 't', upper: 2, terms: { a: 1.9999999999996116, b: 3, c: -1000, d: -12 } },
    ],
  });
  expect(found.verdict).not.toBe('optimal');
});
