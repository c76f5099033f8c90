import { describe, expect, it } from 'vitest';
import type { ClosedProduct } from '../../src/label/closed-product.js';
import type { Product } from '../../src/label/product.js';
import { type Nutrient, perNutrient } from '../../src/chemistry/nutrients.js';
import { type Caution, cautionsFor, inOneList, ureaCaution } from '../../src/can/cautions.js';
import { cautionSays } from '../../src/report/says/cautions.js';
import { powder } from '../feed/fixtures.js';

function product(
  id: string,
  over: Partial<Product> = {},
  holds: Partial<Record<Nutrient, number>> = {},
): ClosedProduct {
  const content = perNutrient((n) => ({ low: holds[n] ?? 0, stated: holds[n] ?? 0, high: holds[n] ?? 0 }));
  return powder(id, {}, { composition: { per: 'g', content, open: [] }, evidence: 'grower', ...over });
}

type Code = Caution['code'];
const about = (products: ClosedProduct[], code: Code, plants = 'phalaenopsis'): Caution[] =>
  cautionsFor(products, plants).filter((caution) => caution.code === code);

const saltpetre = product('saltpetre', { formula: 'KNO3' }, { 'NO3-N': 138.5, N: 138.5, K: 386.7 });
const doubleSalt = product(
  'can',
  { formula: '5Ca(NO3)2.NH4NO3.10H2O' },
  { 'NO3-N': 142, 'NH4-N': 13, N: 155, Ca: 185 },
);
const silicate = product('silicate', { form: 'liquid', derivedFrom: ['potassium silicate'] }, { Si: 80, K: 60 });
const mkp = product('mkp', { formula: 'KH2PO4' }, { P: 227, K: 287 });

describe('cautions (transport class, exemption, acids, ammonia: trade knowledge, from memory)', () => {
  it('tell of urea where it is much of the nitrogen of a mix (common practice, no source), and name what brings it', () => {
    const urea = product('urea', { formula: 'CO(NH2)2' }, { N: 466, 'urea-N': 466 });
    expect(ureaCaution([urea, mkp], 0.5)).toEqual([{ code: 'urea-as-nitrogen', items: ['urea'] }]);
    expect(ureaCaution([urea, mkp], 0.1)).toEqual([]);
    expect(ureaCaution([saltpetre], 0.9)).toEqual([]);
    const all = inOneList([cautionsFor([urea], 'phalaenopsis'), ureaCaution([urea], 0.5)]);
    expect(all.map(cautionSays).filter((text) => /^urea: much of the nitrogen is urea/.test(text))).toHaveLength(1);
    expect(all[0]).toEqual({ code: 'label-first' });
  });

  it('call nitrate powders oxidisers, but not the double salt, which hurts eyes', () => {
    expect(about([saltpetre, mkp], 'oxidiser')).toEqual([
      { code: 'oxidiser', hazards: [{ item: 'saltpetre', codes: ['H272'], may: false }] },
    ]);
    expect(about([doubleSalt], 'oxidiser')).toEqual([]);
    const both = product(
      'peat',
      { derivedFrom: ['calcium ammonium nitrate', 'potassium nitrate'] },
      { 'NO3-N': 120, 'NH4-N': 5, K: 166, Ca: 60 },
    );
    expect(about([both], 'oxidiser')).toEqual([
      { code: 'oxidiser', hazards: [{ item: 'peat', codes: ['H272'], may: true }] },
    ]);
    expect(about([doubleSalt], 'eye-damage')).toHaveLength(1);
    expect(about([product('n', { form: 'liquid' }, { 'NO3-N': 20 })], 'oxidiser')).toEqual([]);
  });

  it('pour acid into water, and know that boric and humic acid are not meant', () => {
    expect(about([product('pHdown', { form: 'liquid', derivedFrom: ['phosphoric acid'] })], 'acid')).toHaveLength(1);
    expect(
      about(
        [product('boric', { name: 'boric acid', formula: 'H3BO3' }, { B: 175 }), product('h', { name: 'humic acid' })],
        'acid',
      ),
    ).toEqual([]);
  });

  it('keep ammonium from alkali, loudest when both are in the mix', () => {
    expect(about([doubleSalt], 'ammonium')).toHaveLength(1);
    expect(about([mkp], 'ammonium')).toEqual([]);
    expect(about([doubleSalt, silicate], 'alkali-beside-ammonium')).toHaveLength(1);
    expect(about([doubleSalt, silicate], 'ammonium')).toEqual([]);
    expect(about([saltpetre, silicate], 'alkali-beside-ammonium')).toEqual([]);
  });

  it('warn of boron and copper, and of copper in bromeliads', () => {
    const micro = product('micro', {}, { B: 1, Cu: 0.5 });
    expect(about([micro], 'boron-or-copper')).toHaveLength(1);
    expect(about([micro], 'copper-in-bromeliads')).toEqual([]);
    expect(about([micro], 'copper-in-bromeliads', 'bromeliad')).toHaveLength(1);
    expect(about([mkp], 'copper-in-bromeliads', 'bromeliad')).toEqual([]);
    expect(about([micro], 'boron-or-copper').map(cautionSays).join()).not.toMatch(/by eye|weigh/i);
  });

  it('keep carnivorous plants from feed at the root, also as the second of two feeds', () => {
    expect(about([], 'carnivorous-roots', 'carnivorous')).toHaveLength(1);
    expect(about([], 'carnivorous-roots')).toEqual([]);
    const both = cautionsFor([], 'fern', 'carnivorous', 'fern').map(({ code }) => code);
    expect(both.filter((code) => code === 'carnivorous-roots')).toHaveLength(1);
    expect(new Set(both).size).toBe(both.length);
  });

  it('always start with the label and end with what holds for every feed', () => {
    const codes = cautionsFor([saltpetre], 'fern').map(({ code }) => code);
    expect(codes).toEqual([
      'label-first',
      'oxidiser',
      'harmful',
      'start-weak',
      'out-of-reach',
      'no-food-crops',
      'runoff',
    ]);
  });

  it('read as a grower reads them, with the jars named', () => {
    const lines = cautionsFor([doubleSalt, silicate], 'carnivorous').map(cautionSays);
    expect(lines[0]).toContain('label comes first');
    expect(lines).toContainEqual(expect.stringMatching(/^silicate with can: alkali sets ammonia free/));
    for (const word of ['children', 'food crops', 'few plants', 'runoff', 'pure water in the tray'])
      expect(lines.join(' ')).toContain(word);
  });
});
