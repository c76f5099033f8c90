import { describe, expect, it } from 'vitest';
import { readProducts } from '../../src/catalog/index.js';
import { clean, codes, problemsOf, taken, told } from './told.js';

const read = (text: string) => readProducts(text, 'shelf.csv');
/** One powder with more columns. */
const powder = (columns: string, cells: string) => read(`id,form,N,NO3-N,K2O,${columns}\njar,powder,5,5,20,${cells}\n`);
/** One liquid, 10 % K2O by weight and volume, with more columns. */
const liquid = (columns: string, cells: string) =>
  read(`id,form,basis,K2O,${columns}\nbottle,liquid,w/v,10,${cells}\n`);

describe('a shelf', () => {
  it('turns a row into a product', () => {
    const [jar] = clean(
      read(
        'id,name,form,basis,NO3-N,NH4-N,urea-N,N,P2O5,K2O,Na,Cl,S,bulk_density,derived_from,on_hand,pack,price,max_rate,kind,notes,source,evidence\n' +
          'jar,The jar,powder,w/w,5,2,0,7,5,20,0,0,0,1.05,potassium nitrate; monoammonium phosphate,"450 g",1 kg,12.5,2 g/L,balanced,dry place,label,grower\n',
      ),
    );
    expect(jar).toMatchObject({
      id: 'jar',
      name: 'The jar',
      form: 'powder',
      derivedFrom: ['potassium nitrate', 'monoammonium phosphate'],
      bulkDensity: 1.05,
      onHand: 450,
      pack: 1000,
      price: 12.5,
      maxRate: 2,
      kind: 'balanced',
      notes: 'dry place',
      source: 'label',
      evidence: 'grower',
      where: { file: 'shelf.csv', line: 2 },
    });
    expect(jar!.composition.per).toBe('g');
    expect(jar!.composition.content['NO3-N']).toEqual({ low: 50, stated: 50, high: 50 });
  });

  it('computes a pure salt from its formula', () => {
    const [salt] = clean(read('id,form,formula,purity\nkno3,powder,KNO3,\n'));
    // K 39.098 of KNO3 101.102 (abridged atomic weights, CIAAW 2021: K 39.098, N 14.007, O 15.999) = 38.67 %
    expect(salt!.composition.content.K.stated).toBeCloseTo((1000 * 39.098) / (39.098 + 14.007 + 3 * 15.999), 6);
    expect(salt!.formula).toBe('KNO3');
    const [half] = clean(read('id,form,formula,purity\nkno3,powder,KNO3,50 %\n'));
    expect(half!.composition.content.K.stated).toBeCloseTo(salt!.composition.content.K.stated! / 2, 9);
  });

  it('leaves an empty cell unknown and takes 0 for zero', () => {
    const [jar] = clean(powder('on_hand,P2O5,Mg', '0 g,,0'));
    expect(jar).toMatchObject({ onHand: 0 });
    expect(jar).not.toHaveProperty('price');
    expect(jar!.composition.content.P.stated).toBeNull();
    expect(jar!.composition.content.Mg.stated).toBe(0);
  });

  it.each([
    ['2 lb', 907.18474],
    ['450g', 450],
    ['1 kg', 1000],
  ])('reads %s of a powder', (text, grams) => {
    // pound 0.45359237 kg: NIST Handbook 44, appendix C, from memory
    expect(clean(powder('on_hand', text))[0]!.onHand).toBeCloseTo(grams, 9);
  });

  it('reads a liquid by volume, or by weight with its density', () => {
    expect(clean(liquid('on_hand,max_rate', '1 L,1.5 mL/L'))[0]).toMatchObject({ onHand: 1000, maxRate: 1.5 });
    expect(clean(liquid('on_hand,density,max_rate', '600 g,1.2,3 g/L'))[0]).toMatchObject({
      onHand: 500,
      density: 1.2,
      maxRate: 2.5,
    });
  });

  it('reads decimal commas and says so, once', () => {
    const result = read('id;form;K2O;Mg;price;pack\na;powder;20,5;1,25;12,5;1,5 kg\n');
    expect(taken(result)[0]).toMatchObject({
      price: 12.5,
      pack: 1500,
      composition: { content: { Mg: { stated: 12.5 } } },
    });
    expect(told(result)).toEqual([
      'shelf.csv:1: found semicolons between the cells; expected commas. Read with semicolons; nothing to do if the columns are right.',
    ]);
    const quoted = read('id,form,Mg,K2O\na,powder,"5,5","20,5"\n');
    expect(told(quoted)).toEqual([
      'shelf.csv:2 (K2O): found "20,5" and 1 more; expected a decimal point. Read as 20.5. The others likewise.',
    ]);
  });

  it('refuses a comma that could mean two things, unless semicolons make it a decimal comma', () => {
    expect(codes(problemsOf(powder('price,pack', '"1,500",1 kg')))).toEqual(['number-unclear@2']);
    const [bottle] = taken(read('id;form;basis;K2O;density\na;liquid;w/w;10;1,055\n'));
    expect(bottle!.density).toBe(1.055);
  });

  it('warns that a price of 0 is free, that a price without pack is unknown, and that a density is not used', () => {
    expect(told(powder('price,pack', '0,1 kg'))).toEqual([
      'shelf.csv:2 (price): found "0"; expected the price of a pack. 0 means free; leave the cell empty where it is not known.',
    ]);
    expect(codes(problemsOf(powder('price', '3')))).toEqual(['price-without-pack@2']);
    expect(codes(problemsOf(powder('density', '1.2')))).toEqual(['not-used@2']);
    expect(codes(problemsOf(liquid('bulk_density', '1.2')))).toEqual(['not-used@2']);
  });

  it('names both lines of an id given twice', () => {
    const result = read('id,form,K2O\na,powder,1\nb,powder,1\na,powder,2\n');
    expect(told(result)).toEqual([
      'shelf.csv:4 (id): found id "a" again, first on line 2; expected each id once, whatever its case. Rename one of them, or take it out.',
    ]);
  });

  it('keeps products called __proto__, constructor and result', () => {
    const products = clean(read('id,form,K2O\n__proto__,powder,1\nconstructor,powder,2\nresult,powder,3\n'));
    expect(products.map((p) => p.id)).toEqual(['__proto__', 'constructor', 'result']);
  });

  it('sees swapped columns', () => {
    expect(told(read('id,form,name,K2O\na,Potassium jar,powder,twenty\n'))).toEqual([
      'shelf.csv:2 (form): found "Potassium jar"; expected powder or liquid. Write powder or liquid; is this the right column?',
    ]);
    expect(told(read('id,form,K2O,name\na,powder,Green jar,20\n'))).toContain(
      'shelf.csv:2 (K2O): found "Green jar"; expected a number in % from 0 to 100. Write a number, or leave the cell empty; is this the right column?',
    );
  });

  it('tells every problem of every row at once', () => {
    const result = read(
      'id,form,basis,Mg,K2O,density,on_hand,pack,price,max_rate,evidence\n' +
        ',powder,w/w,5,20,,,,,,\n' +
        'b,powdr,w/w,5,20,,,,,,\n' +
        'c,powder,w/w,-5,120,,450,250 mL,-3,1 mL/L,guess\n' +
        'd,liquid,w/w,5,x,3,,100 g,,2,\n' +
        'e,powder,,,,,,0 g,5,0 g/L,handbook\n',
    );
    expect(codes(problemsOf(result))).toEqual([
      'cell-empty@2',
      'choice@3',
      'choice@4',
      'number-range@4',
      'number-negative@4',
      'amount@4',
      'amount-kind@4',
      'amount-kind@4',
      'number-negative@4',
      'number-range@5',
      'number-expected@5',
      'amount-kind@5',
      'amount@5',
      'source-missing@6',
      'analysis-empty@6',
      'pack-zero@6',
      'rate-zero@6',
    ]);
  });

  it('tells fifty problems and how many more there are', () => {
    const rows = Array.from({ length: 5000 }, (_, i) => `p${i},powder,120\n`).join('');
    const problems = problemsOf(read(`id,form,K2O\n${rows}`));
    expect(problems).toHaveLength(51);
    expect(problems[50]).toMatchObject({
      code: 'more-problems',
      found: '4950 more like these',
      where: { file: 'shelf.csv' },
    });
  });

  it('reads 5,000 products', () => {
    const rows = Array.from(
      { length: 5000 },
      (_, i) =>
        `p${i},Jar ${i},powder,w/w,${i % 15},${i % 11},"potassium nitrate; urea",500 g,${(i % 90) + 1},1 g/L,"a note, with a comma"\n`,
    ).join('');
    expect(clean(read(`id,name,form,basis,N,K2O,derived_from,pack,price,max_rate,notes\n${rows}`))).toHaveLength(5000);
  });

  it('refuses 40,000 rows at once', () => {
    const rows = Array.from({ length: 40_000 }, (_, i) => `p${i},powder,12\n`).join('');
    expect(codes(problemsOf(read(`id,form,K2O\n${rows}`)))).toEqual(['too-many-rows@-']);
  });

  it('never lets Infinity or NaN through', () => {
    for (const text of ['1e999', 'Infinity', 'NaN', '0x10', '1/0', '--5', '1e-999x']) {
      expect(read(`id,form,K2O\na,powder,${text}\n`).ok, text).toBe(false);
    }
  });
});
