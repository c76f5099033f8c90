import { readdirSync, readFileSync } from 'node:fs';
import { describe, expect, it } from 'vitest';
import { highs, type LinearProgram, simplex, solve } from '../../solver/index.js';
import { stigler } from './stigler.js';

interface Case {
  source: string;
  program: LinearProgram;
  expect: { verdict: string; objective?: number; printedTo?: number; x?: Record<string, number> };
}

const here = new URL('../programs/', import.meta.url);
const cases = readdirSync(here)
  .filter((file) => file.endsWith('.json'))
  .map((file) => [file, JSON.parse(readFileSync(new URL(file, here), 'utf8')) as Case] as const);

describe.each(cases)('%s', (_, { source, program, expect: known }) => {
  const whole = program.columns.some((column) => column.integer);
  it.each(whole ? [[undefined]] : [[undefined], [[simplex]], [[highs]]])(
    `has the optimum of its source (${source})`,
    async (engines) => {
      const answer = await solve(program, engines ? { engines } : {});
      expect(answer.verdict).toBe(known.verdict);
      const found = answer.verdict === 'optimal' ? answer : undefined;
      const cost = found?.objective;
      expect(cost === undefined).toBe(known.objective === undefined);
      // printedTo: half a unit of the last digit that the source prints
      if (cost !== undefined) expect(Math.abs(cost - known.objective!)).toBeLessThanOrEqual(known.printedTo!);
      for (const [id, value] of Object.entries(known.x ?? {}))
        expect(Math.abs(found!.x[id]! - value), id).toBeLessThanOrEqual(known.printedTo!);
    },
  );
});

it('Stigler 1945: the least-cost diet (J. Farm Economics 27:303)', async () => {
  const answer = await solve(stigler());
  if (answer.verdict !== 'optimal') throw new Error(answer.verdict);
  // $/day and $/year as printed with six and four decimals
  expect(answer.objective).toBeCloseTo(0.108662, 6);
  expect(answer.objective * 365).toBeCloseTo(39.6617, 3);
  const bought = Object.entries(answer.x).filter(([, dollars]) => dollars > 1e-9);
  expect(Object.fromEntries(bought.map(([food, dollars]) => [food, Number(dollars.toFixed(6))]))).toEqual({
    'Wheat Flour (Enriched)': 0.029519,
    'Liver (Beef)': 0.001893,
    Cabbage: 0.011214,
    Spinach: 0.005008,
    'Navy Beans, Dried': 0.061029,
  });
});
