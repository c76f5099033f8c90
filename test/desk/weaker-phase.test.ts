import { expect, it } from 'vitest';
import { openBench } from '../../src/desk/open-bench.js';
import { seasonFor } from '../../src/desk/season.js';
import { strengthSays } from '../../src/report/says/strength.js';
import { seasonSheet } from '../../src/report/season.js';
import { renderText } from '../../src/report/text.js';
import { exampleFiles } from './benches.js';

it('says of a phase that is weaker by itself what a strength comes to, and how many cans of each mix hold', async () => {
  const files = {
    ...exampleFiles('moss-without-ammonium'),
    bench: {
      name: 'bench.yaml',
      text: `water: rain
kit: { scale: 0.01 g }
feeds:
  still: { plants: pleurothallid, medium: sphagnum, phase: rest, strength: 25 %, batch: 4 L, weekly: 4 L }
  moss: { plants: pleurothallid, medium: sphagnum, phase: growth, strength: 80 %, batch: 4 L, weekly: 4 L }
`,
    },
  };
  // 0.45 in catalog/factors.csv
  const says = '25 % of the rest programme is 11 % of full growth';
  const { requests } = await openBench(files, {});
  expect(requests.map(({ header }) => strengthSays(header))).toEqual([says, '80 %']);
  const { result } = await seasonFor(files, { from: '2026-12-01', feed: 'still' });
  const told = renderText(seasonSheet(result), { columns: 400, colour: false, full: true });
  expect(told).toContain(`still: ${says}`);
  expect(told).toMatch(/still, rest, 25 %: (About \d+ of|None of|All of|Less than 1 of) 100 cans keep every limit/);
});
