import { describe, expect, it } from 'vitest';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import { readProducts } from '../../src/catalog/shelf.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { closeProduct } from '../../src/label/close.js';
import { labelLine } from '../../src/label/index.js';
import { unwrap } from '../../src/problem.js';
import { leftOpenSays } from '../../src/report/says/left-open.js';

const closed = async (header: string, row: string): Promise<ClosedProduct> =>
  closeProduct(unwrap(readProducts(`id,${header}\nx,${row}`, 'x.csv'))[0]!);
const range = ({ composition }: ClosedProduct, n: Nutrient) => composition.closed!.get(n)!;

describe('labels closed by hand', () => {
  it('a liquid of three salts: sulfate is the potassium that nitrate and phosphate leave over', async () => {
    const product = await closed(
      'form,basis,N,NO3-N,P2O5,K2O,derived_from',
      'liquid,w/v,2.1,2.1,5.2,20.3,potassium nitrate; monopotassium phosphate; potassium sulfate',
    );
    // mmol/mL: K 203 × 0.83015 ÷ 39.098 = 4.3102; N 21 ÷ 14.007 = 1.4993; P 52 × 0.43643 ÷ 30.974 = 0.7327; S = half of the rest
    expect(range(product, 'S').value).toBeCloseTo((4.3102 - 1.4993 - 0.7327) * 0.5 * 32.06, 1);
    // Allowances (AAPFCO, from memory, in %): N 0.49, P2O5 0.67 + 0.02 × 1.2 ÷ 6 = 0.674, K2O 1.08 + 0.36 × 0.3 ÷ 12 = 1.089; the ends have K at
    // one of its limits and the others at the opposite ones: 4.5414 − 1.1494 − 0.6377 and 4.0790 − 1.8491 − 0.8277
    expect(range(product, 'S').high).toBeCloseTo((4.5414 - 1.1494 - 0.6377) * 0.5 * 32.06, 1);
    expect(range(product, 'S').low).toBeCloseTo((4.079 - 1.8491 - 0.8277) * 0.5 * 32.06, 1);
    // a cap counts the most, a minimum nothing: a list is no guarantee
    expect(product.composition.content.S.high).toBeCloseTo(range(product, 'S').high, 9);
    expect(product.composition.content.S.low).toBe(0);
    const line = labelLine(product).elements.find((e) => e.element === 'S')!;
    expect(line.closed).toEqual(range(product, 'S'));
    expect(line).toMatchObject({ mgPerLitre: null, low: 0 });
  });

  it('a known mixture whose figures are rounded keeps its sulfur inside the range', async () => {
    // 4.8-11.8-47.1 was printed for a mixture with 79.3 mg/g of S
    const product = await closed(
      'form,N,NO3-N,P2O5,K2O,derived_from',
      'powder,4.8,4.8,11.8,47.1,potassium nitrate; monopotassium phosphate; potassium sulfate',
    );
    const { low, high } = range(product, 'S');
    expect(low).toBeLessThan(79.3);
    expect(high).toBeGreaterThan(79.3);
  });

  it('forms of nitrogen follow from the salts named', async () => {
    const product = await closed(
      'form,N,P2O5,K2O,derived_from',
      'powder,30,10,10,urea; monoammonium phosphate; potassium nitrate',
    );
    // per g: P 43.643 mg brings as many atoms of ammonium nitrogen, K 83.015 mg as many of nitrate; the rest is urea
    expect(range(product, 'NH4-N').value).toBeCloseTo((43.643 / 30.974) * 14.007, 1);
    expect(range(product, 'NO3-N').value).toBeCloseTo((83.015 / 39.098) * 14.007, 1);
    expect(range(product, 'urea-N').value).toBeCloseTo(300 - 19.74 - 29.74, 0);
    // whole numbers: 11 % P2O5 at most, a tenth more
    expect(product.composition.content['NH4-N'].high).toBeCloseTo(1.1 * 19.736, 1);
    const open = product.composition.open;
    expect(open.map(leftOpenSays)).toContainEqual(
      expect.stringMatching(/^Forms of nitrogen by the salts named: .*NH4-N about 19\.7 mg\/g/),
    );
    expect(open.find((left) => left.kind === 'nitrogen form')).toMatchObject({ cap: 'as told' });
  });

  it('a name that may be two salts counts as either', async () => {
    const one = await closed('form,N,P2O5,derived_from', 'powder,11,52,monoammonium phosphate; urea');
    const two = await closed('form,N,P2O5,derived_from', 'powder,18,46,ammonium phosphate');
    expect(one.ions.from).toBe('sources');
    // 18-46-0 is diammonium phosphate, which one ammonium for each phosphate cannot make
    expect(two.ions.from).toBe('sources');
    expect(two.ions.value.alkalinity).toBeGreaterThan(2);
  });

  it('without a list: all counter-ions in the range, the charges left over in what a cap counts', async () => {
    // sodium nitrate with potassium sulfate in water: potassium nitrate would look the same
    const product = await closed('form,basis,N,NO3-N,K2O', 'liquid,w/v,2.8,2.8,9.4');
    // mmol/mL: nitrate 28 ÷ 14.007 = 2.0, potassium 94 × 0.83015 ÷ 39.098 = 2.0
    expect(range(product, 'Na').high).toBeGreaterThan(1.99 * 22.99);
    expect(range(product, 'S').high).toBeGreaterThan(0.5 * 1.99 * 32.06);
    expect(product.composition.content.Na.high).toBeLessThan(0.1 * 22.99);
    expect(product.composition.open.map(leftOpenSays)).toContainEqual(
      expect.stringMatching(/^Na is not stated: .* by every plausible counter-ion; a cap counts up to/),
    );
  });

  it('two salts named for the same nitrogen: the value lies between all of the one and all of the other', async () => {
    // 20 % N as urea or as ammonium sulfate (21.2 % N, 24.3 % S): all of it would be 942 mg/g with 229 mg/g of S, and none 0
    const product = await closed('form,N,derived_from', 'powder,20.0,urea; ammonium sulfate');
    const { low, value, high } = range(product, 'S');
    expect(low).toBe(0);
    expect(value).toBeCloseTo(229 / 2, 0);
    expect(high).toBeGreaterThan(229);
  });

  it('a list that cannot make the analysis is set aside, in what a cap counts as well', async () => {
    // urea is no ammonium; without it, 10 % N as ammonium (7.14 mmol/g) may be its chloride
    const wrong = await closed('form,N,NH4-N,derived_from', 'powder,10,10,urea');
    const bare = await closed('form,N,NH4-N', 'powder,10,10');
    expect(wrong.ions.from).toBe('label alone');
    for (const n of ['S', 'Na', 'Cl'] as const) {
      expect(wrong.composition.content[n].high).toBeCloseTo(bare.composition.content[n].high, 6);
      for (const end of ['low', 'value', 'high'] as const)
        expect(range(wrong, n)[end]).toBeCloseTo(range(bare, n)[end], 6);
    }
    expect(wrong.composition.content.Cl.high).toBeGreaterThan(7.13 * 35.45);
    const none = wrong.composition.open.find((left) => left.kind === 'counted as none');
    expect(none!.nutrients.filter((n) => ['S', 'Na', 'Cl'].includes(n))).toEqual([]);
  });
});
