import { describe, expect, it } from 'vitest';
import type { Product } from '../../src/label/product.js';
import { type Nutrient, perNutrient } from '../../src/chemistry/nutrients.js';
import { cautionsFor } from '../../src/can/cautions.js';

function product(id: string, over: Partial<Product> = {}, holds: Partial<Record<Nutrient, number>> = {}): Product {
  const content = perNutrient((n) => ({ low: holds[n] ?? 0, stated: holds[n] ?? 0, high: holds[n] ?? 0 }));
  return {
    id,
    name: id,
    form: 'powder',
    composition: { per: 'g', content, open: [] },
    derivedFrom: [],
    notes: '',
    source: 'test',
    evidence: 'grower',
    where: {},
    ...over,
  };
}

const about = (products: Product[], word: string, plants = 'phalaenopsis'): string[] =>
  cautionsFor(products, plants).filter((line) => line.includes(word));

const saltpetre = product('saltpetre', { formula: 'KNO3' }, { 'NO3-N': 138.5, N: 138.5, K: 386.7 });
const doubleSalt = product(
  'can',
  { formula: '5Ca(NO3)2.NH4NO3.10H2O' },
  { 'NO3-N': 142, 'NH4-N': 13, N: 155, Ca: 185 },
);
const silicate = product('silicate', { form: 'liquid', derivedFrom: ['potassium silicate'] }, { Si: 80, K: 60 });
const mkp = product('mkp', { formula: 'KH2PO4' }, { P: 227, K: 287 });

describe('cautions (transport class, exemption, acids, ammonia: trade knowledge, from memory)', () => {
  it('call nitrate powders oxidisers, but not the double salt, which hurts eyes', () => {
    expect(about([saltpetre, mkp], 'oxidiser')).toEqual([expect.stringMatching(/^saltpetre: /)]);
    expect(about([doubleSalt], 'oxidiser')).toEqual([]);
    const both = product('peat', { derivedFrom: ['calcium ammonium nitrate', 'potassium nitrate'] }, { 'NO3-N': 120 });
    expect(about([both], 'oxidiser')).toHaveLength(1);
    expect(about([doubleSalt], 'eyes')).toHaveLength(1);
    expect(about([product('n', { form: 'liquid' }, { 'NO3-N': 20 })], 'oxidiser')).toEqual([]);
  });

  it('pour acid into water, and know that boric and humic acid are not meant', () => {
    expect(
      about([product('pHdown', { form: 'liquid', derivedFrom: ['phosphoric acid'] })], 'acid into water'),
    ).toHaveLength(1);
    expect(
      about(
        [product('boric', { name: 'boric acid', formula: 'H3BO3' }, { B: 175 }), product('h', { name: 'humic acid' })],
        'acid into water',
      ),
    ).toEqual([]);
  });

  it('keep ammonium from alkali, loudest when both are in the mix', () => {
    expect(about([doubleSalt], 'bleach')).toHaveLength(1);
    expect(about([mkp], 'bleach')).toEqual([]);
    expect(about([doubleSalt, silicate], 'sets ammonia free')).toHaveLength(1);
    expect(about([saltpetre, silicate], 'sets ammonia free')).toEqual([]);
  });

  it('warn of boron and copper, and of copper in bromeliads', () => {
    const micro = product('micro', {}, { B: 1, Cu: 0.5 });
    expect(about([micro], 'boron or copper')).toHaveLength(1);
    expect(about([micro], 'Bromeliads')).toEqual([]);
    expect(about([micro], 'Bromeliads', 'bromeliad')).toHaveLength(1);
    expect(about([mkp], 'Bromeliads', 'bromeliad')).toEqual([]);
  });

  it('always start with the label and end with what holds for every feed', () => {
    const lines = cautionsFor([], 'fern');
    expect(lines[0]).toContain('label comes first');
    for (const word of ['children', 'food crops', 'few plants', 'runoff']) expect(lines.join(' ')).toContain(word);
  });
});
