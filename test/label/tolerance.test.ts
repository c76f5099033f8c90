import { describe, expect, it } from 'vitest';
import { readBench } from '../../src/catalog/bench.js';
import { labelsOf } from '../../src/desk/labels.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { tolerance } from '../../src/label/allowance.js';
import type { Law } from '../../src/label/law.js';

/** Regulation (EU) 2019/1009, Annex III, part III, PFC 1(C), consolidated text; New Hampshire Agr 1105.04; AAPFCO. Figures as elements; oxides by atomic weights. */
describe('what a label may be off by', () => {
  const P = 0.43643;
  const Mg = 0.60304;
  it.each<[string, Parameters<typeof tolerance>, number, number]>([
    ['N of a tertiary fertiliser', ['N', 18, 'eu', 3], 1.9, 1.9],
    ['N of a binary one', ['N', 13, 'eu', 2], 1.5, 1.5],
    ['N of a straight one', ['N', 15.5, 'eu', 1], 2, 2],
    ['N of a weak straight one', ['N', 4, 'eu', 1], 1, 1],
    ['P2O5 10', ['P', 10 * P, 'eu', 3], 1.9 * P, 1.9 * P],
    ['MgO 2', ['Mg', 2 * Mg, 'eu', 3], Mg, 2 * Mg],
    ['MgO 16', ['Mg', 16 * Mg, 'eu', 0], 2 * Mg, 4 * Mg],
    ['B 0.02', ['B', 0.02, 'eu', 3], 0.01, 0.01],
    ['Fe 6', ['Fe', 6, 'eu', 0], 1, 1],
    ['Zn 15', ['Zn', 15, 'eu', 0], 1, 1],
    ['N 20, US', ['N', 20, 'us', 3], 0.73, 0.73],
    ['Ca 4, US by default', ['Ca', 4, undefined, 3], 0.4, 0.4],
  ])('%s', (_, asked, under, over) => {
    const found = tolerance(...asked);
    expect(found.under).toBeCloseTo(under, 4);
    expect(found.over).toBeCloseTo(over, 4);
  });

  const shelf = {
    name: 'shelf.csv',
    text: 'id,form,N,NO3-N,NH4-N,urea-N,P2O5,K2O,derived_from\na,powder,18,5.4,3.5,9.1,18,18,monoammonium phosphate; potassium nitrate; urea; potassium chloride\n',
  };
  const range = async (law: Law | null): Promise<number> => {
    const text = `water: { use: rain }\n${law === null ? '' : `law: ${law}\n`}`;
    const { result } = await labelsOf({ bench: { name: 'bench.yaml', text }, shelf }, {});
    const { low, high } = result.products[0]!.ec;
    return high - low;
  };

  it('is told by the bench: the EU allows more, and the US stand where it says nothing', async () => {
    const [eu, us, none] = [await range('eu'), await range('us'), await range(null)];
    expect(none).toBe(us);
    expect(eu).toBeGreaterThan(1.2 * us);
  });

  it('another law is refused', () => {
    const read = readBench('water: { use: rain }\nlaw: mars\n', 'bench.yaml', shippedCatalog());
    expect(!read.ok && read.problems).toMatchObject([{ where: { line: 2, field: 'law' } }]);
  });
});
