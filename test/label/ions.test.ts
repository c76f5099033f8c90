import { describe, expect, it } from 'vitest';
import type { Product } from '../../src/label/product.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { chargeOf, type Ions } from '../../src/chemistry/ions.js';
import type { Nutrient } from '../../src/chemistry/nutrients.js';
import { shippedCatalog } from '../../src/desk/shipped-catalog.js';
import { closeProduct, closeShelf } from '../../src/label/close.js';
import { conductivity } from '../../src/chemistry/conductivity.js';
import { conductingIons } from '../../src/can/ec.js';
import { labelFacts } from '../../src/can/label-facts.js';
import { sourcesWarnings } from '../../src/desk/sources-warning.js';
import { unwrap } from '../../src/problem.js';

const catalog = shippedCatalog();
const one = (header: string, row: string) =>
  closeProduct(unwrap(readProducts(`id,form,${header}\nx,powder,${row}`, 'x.csv'))[0]!);
const balance = (ions: Ions): number => chargeOf(ions) - ions.alkalinity;

describe('the ions of a product', () => {
  it('of a pure salt are those of its formula', async () => {
    const { value, leastConductive, from } = (await one('formula', 'KNO3')).ions;
    expect(from).toBe('formula');
    // 1000 / 101.10 mmol per gram
    expect(value.K).toBeCloseTo(9.891, 3);
    expect(value.NO3).toBeCloseTo(value.K, 9);
    expect(value.alkalinity).toBe(0);
    expect(leastConductive).toBe(value);
  });

  it('carry no charge, for every product of the catalog and every make-up of its label', async () => {
    // chelates and trace metals carry charge that the nine ions do not show; 2 % is what they come to in a complete feed
    const most = (p: Product, nutrients: readonly Nutrient[]): number =>
      Math.max(...nutrients.map((n) => p.composition.content[n].high));
    const bulk = [...catalog.products, ...catalog.salts].filter(
      (p) =>
        40 * most(p, ['Fe', 'Mn', 'Zn', 'Cu', 'B', 'Mo', 'Co', 'Ni', 'Si']) < most(p, ['N', 'P', 'K', 'Ca', 'Mg', 'S']),
    );
    expect(bulk.length).toBeGreaterThan(50);
    for (const product of bulk) {
      const { value, leastConductive, mostConductive, acid, alkaline, from } = (await closeProduct(product)).ions;
      // the ends of a label without a list may hold chelates and trace salts, which are no ions here
      const bound = from === 'label alone';
      for (const ions of bound ? [value] : [value, leastConductive, mostConductive, acid, alkaline]) {
        const { alkalinity, ...strong } = ions;
        const size = Object.values(strong).reduce((sum, mmol) => sum + mmol, Math.abs(alkalinity));
        expect(Math.abs(balance(ions)), product.id).toBeLessThanOrEqual(0.02 * size);
      }
    }
  });

  it('follow the sources a label names: muriate and sulfate of potash tell themselves apart', async () => {
    const chloride = await one('K2O,derived_from', '60,potassium chloride');
    const sulfate = await one('K2O,derived_from', '50,potassium sulfate');
    expect(chloride.ions.value.Cl).toBeCloseTo(chloride.ions.value.K, 6);
    expect(sulfate.ions.value.SO4).toBeCloseTo(sulfate.ions.value.K / 2, 6);
    // 49.8 % K as KCl brings 45.2 % Cl, within the deviation that rounding may have
    expect(chloride.composition.content.Cl.high / 10).toBeGreaterThan(45.1);
    expect(chloride.composition.content.Cl.high / 10).toBeLessThan(46.7);
    expect(chloride.composition.content.S.high).toBe(0);
    // what the list tells is no guarantee: a minimum may not count on it
    expect(chloride.composition.content.Cl.low).toBe(0);
  });

  it('leave a range where two lists could make the label, and a wider one where there is no list', async () => {
    const ec = async (header: string, row: string) => labelFacts(await one(header, row)).ec;
    const listed = await ec(
      'N,NO3-N,K2O,derived_from',
      '8,8,45,potassium nitrate; potassium chloride; potassium sulfate',
    );
    const bare = await ec('N,NO3-N,K2O', '8,8,45');
    expect(listed.high).toBeGreaterThan(listed.low * 1.005);
    expect(bare.high - bare.low).toBeGreaterThan(listed.high - listed.low);
    expect(bare.from).toBe('label alone');
    expect(listed.from).toBe('sources');
  });

  it('of every invented product can be made from the salts it names', async () => {
    for (const { id, disagreement } of await closeShelf(catalog.products)) expect(disagreement, id).toBeUndefined();
  });

  it('that a list cannot make are told, with by how much', async () => {
    const wrong = await one('N,NO3-N,P2O5,K2O,derived_from', '10,10,10,30,potassium nitrate');
    const facts = labelFacts(wrong);
    expect(sourcesWarnings(wrong)).toMatchObject([
      { code: 'sources-disagree', found: expect.stringMatching(/cannot make this analysis: .*P 0 % for 4\.36 %/) },
    ]);
    expect(wrong.disagreement!.find(({ nutrient }) => nutrient === 'P')!.nearest).toBeCloseTo(0, 9);
    expect(facts.ec.from).toBe('label alone');
  });

  it('give way to a measured EC', async () => {
    const measured = await one('N,NO3-N,K2O,ec', '13,13,45,1.1');
    expect(conductivity(conductingIons(measured, 'value'))).toBeCloseTo(1.1, 5);
    const facts = labelFacts(measured).ec;
    expect(facts.from).toBe('measured');
    expect(facts.low).toBeCloseTo(facts.high, 9);
    // a product without known ions conducts as potassium chloride would
    expect(conductivity(conductingIons(await one('N,other-N,ec', '1,1,0.2'), 'value'))).toBeCloseTo(0.2, 5);
  });

  it('refuse an EC that no product has', () => {
    const read = readProducts('id,form,K2O,ec\nx,powder,50,1500', 'x.csv');
    expect(read.ok).toBe(false);
  });
});
