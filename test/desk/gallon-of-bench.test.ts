import { describe, expect, it } from 'vitest';
import { withGallon } from '../../src/advice/named-gallon.js';
import { assessWords } from '../../src/desk/assess.js';
import { Refusal } from '../../src/problem.js';
import { exampleFiles } from './benches.js';

const { shelf } = exampleFiles('spoons-alone');
const bench = (batch: string) => ({
  bench: {
    name: 'bench.yaml',
    text: `name: any\nwater: { use: rain }\nkit: { spoons: [1 tsp, 1/4 tsp], scale: 0.01 g }\nfeeds:\n  moths: { plants: moth orchids, medium: bark, strength: 75 %, batch: ${batch} }\n`,
  },
  shelf: shelf!,
});
const TOLD = '1/4 tsp magnesium-sulfate in 1 gallon';

describe('a gallon that is not named', () => {
  it('is that of the bench, where its batch or its cans hold one', async () => {
    const us = await assessWords(bench('1 US gal'), { recipe: TOLD });
    expect(us.about === 'recipe' && us.result.volumeLitres).toBeCloseTo(3.785411784, 9);
    const imperial = await assessWords(bench('2 imperial gal'), { recipe: TOLD });
    expect(imperial.about === 'recipe' && imperial.result.volumeLitres).toBeCloseTo(4.54609, 9);
    const advice = await assessWords(bench('1 US gal'), { recipe: '1/4 tsp/gal of 20-20-20' });
    expect(JSON.stringify(advice.about === 'advice' && advice.result.readings)).not.toContain('imperial gal');
  }, 60_000);

  it('is asked for where the bench tells nothing of it, and as named where it is', async () => {
    await expect(assessWords(bench('4 L'), { recipe: TOLD })).rejects.toThrow(Refusal);
    for (const named of ['1 US gal', '1 imperial gallon', '1 gal (US)', '1 UK gallon', '1 u.s. gallon'])
      expect(withGallon(`1 tsp in ${named}`, 'US')).toBe(`1 tsp in ${named}`);
    expect(withGallon('1 tsp per gallon, 2 qts', 'US')).toBe('1 tsp per US gallon, 2 US qts');
  }, 60_000);
});
