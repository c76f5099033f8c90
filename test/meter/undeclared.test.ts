import { describe, expect, it } from 'vitest';
import { closeShelf } from '../../src/label/close.js';
import type { Batch } from '../../src/meter/batch.js';
import { ecOf } from '../../src/meter/expected.js';
import { judge } from '../../src/meter/judge.js';
import { plannedBatch } from '../../src/meter/meter-types.js';
import { labelConducts } from '../../src/meter/spreads.js';
import { causeSays, checkSays } from '../../src/report/says/cause.js';
import { litres, milliSiemensPerCm } from '../../src/units/index.js';
import type { Product } from '../../src/label/product.js';
import { pure, row } from '../feed/fixtures.js';

const PEN = { scale: null, temperatureC: 25, compensates: true } as const;
// 20-20-20 by oxides, the forms of its nitrogen untold
const HOLDS = { N: 20, P: 8.7, K: 16.6 };
const untold = { low: 0, stated: null, high: 200 };
function bare(id: string, more: Partial<Product> = {}): Product {
  const made = row(id, HOLDS, more);
  const content = { ...made.composition.content, 'NO3-N': untold, 'NH4-N': untold, 'urea-N': untold };
  return { ...made, composition: { ...made.composition, content } };
}
const [silent, told] = await closeShelf([
  bare('silent'),
  bare('told', { derivedFrom: ['potassium nitrate', 'monoammonium phosphate', 'urea'] }),
]);

const batchOf = (product: NonNullable<typeof silent>): Batch => ({
  litres: litres(4),
  waters: [{ water: pure, share: 1 }],
  items: [{ product, planned: 4, sd: 0.05, words: '4 g', bySpoon: false, full: 1 }],
});

/** A can of it that reads so many times what it is expected to. */
const readAs = (product: NonNullable<typeof silent>, factor: number) => {
  const batch = batchOf(product);
  const mSPerCm = milliSiemensPerCm(factor * ecOf(batch, 'end', [1], 1));
  const { judgement } = judge(
    batch,
    [{ moment: 'end', mSPerCm, shown: { figure: '', unit: 'mS/cm', scale: null } }],
    PEN,
  );
  return { batch, judgement };
};

describe('a jar whose salts are not declared', () => {
  it.each(['low', 'high'] as const)('that reads as far %s as likely make-ups go may be of other salts', (end) => {
    const factor = labelConducts(silent!)![end];
    const { batch, judgement } = readAs(silent!, factor);
    const cause = judgement.causes.find(({ fault }) => fault.kind === 'label');
    expect(cause).toMatchObject({ cause: 'label:0', fault: { kind: 'label', item: 0 } });
    expect(Math.sign(cause!.value.likely - 1)).toBe(Math.sign(factor - 1));
    const says = causeSays(cause!, plannedBatch(batch, PEN));
    expect(says).toContain(factor > 1 ? 'higher than its label lets expect' : 'lower than its label lets expect');
    expect(checkSays(cause!, plannedBatch(batch, PEN))).toContain('derived_from');
  });

  it('is no cause where the salts are listed', () => {
    expect(labelConducts(told!)).toBeNull();
    expect(readAs(told!, 1.35).judgement.causes.some(({ fault }) => fault.kind === 'label')).toBe(false);
  });
});
