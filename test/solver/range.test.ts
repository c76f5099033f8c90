import { expect, test } from 'vitest';
import { costRange, shadowPrice, reach, solve, type LinearProgram } from '../../solver/index.js';
const wyndor: LinearProgram = {
  columns: [
    { id: 'doors', cost: -3 },
    { id: 'windows', cost: -5 },
  ],
  rows: [
    { id: '1', upper: 4, terms: { doors: 1 } },
    { id: '2', upper: 12, terms: { windows: 2 } },
    { id: '3', upper: 18, terms: { doors: 3, windows: 2 } },
  ],
};
test('w', async () => {
  const a = await solve(wyndor);
  if (a.verdict !== 'optimal') throw new Error();
  console.log(a, await costRange(wyndor, 'doors', a.x), await costRange(wyndor, 'windows', a.x));
  for (const r of ['1', '2', '3']) console.log(r, JSON.stringify(await shadowPrice(wyndor, r, 'upper')));
  console.log(await reach(wyndor, { doors: 1, windows: 1 }));
});
