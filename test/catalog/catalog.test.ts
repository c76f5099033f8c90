import { describe, expect, it } from 'vitest';
import { findMedium, findPhase, findPlants, findProduct, findWater } from '../../src/catalog/index.js';
import { formula, massShare } from '../../src/chemistry/index.js';
import { littleCatalog, withFiles } from './little.js';
import { clean, codes, problemsOf, told } from './told.js';

describe('a catalog', () => {
  it('is read into typed rows, synonyms turned into ids', () => {
    const catalog = littleCatalog();
    expect(catalog.plants[0]).toMatchObject({ id: 'phalaenopsis', media: ['sphagnum', 'bark'], evidence: 'grower' });
    expect(catalog.factors[1]).toMatchObject({ medium: 'sphagnum', phase: '*', nutrient: '*', factor: 0.85 });
    expect(catalog.bands[1]).toMatchObject({ plants: 'phalaenopsis', nutrient: 'N', min: 75, aim: 125, max: 200 });
    expect(catalog.rules[1]).toMatchObject({ plants: 'phalaenopsis', medium: 'sphagnum', rule: 'EC <= 0.8' });
    expect(catalog.waters[1]).toMatchObject({
      mgPerLitre: { 'NO3-N': 5, Ca: 60, Mg: 10, Na: 25 },
      alkalinity: 147.5,
      pH: 7.6,
      pricePerLitre: 0.002,
    });
  });

  it('leaves what a water does not state unknown', () => {
    expect(littleCatalog().waters[0]!.mgPerLitre).not.toHaveProperty('K');
  });

  it.each([['phalaenopsis'], ['Moth orchid'], ['MOTH ORCHIDS'], ['moth-orchids'], ['phals'], ['  phal ']])(
    'knows the plants called %j',
    (name) => {
      expect(clean(findPlants(littleCatalog(), name))).toBe('phalaenopsis');
    },
  );

  it('knows media, phases, waters and products by their other names', () => {
    const catalog = littleCatalog();
    expect(clean(findMedium(catalog, 'Moss'))).toBe('sphagnum');
    expect(clean(findPhase(catalog, 'winter'))).toBe('rest');
    expect(clean(findWater(catalog, 'roof water')).id).toBe('rain');
    expect(clean(findProduct(catalog.salts, 'Potassium-Nitrate')).id).toBe('potassium-nitrate');
  });

  it.each(
    [
      ['phaleanopsis', 'Did you mean phalaenopsis?'],
      ['mosdevallia', 'Did you mean pleurothallid?'],
      ['oak', 'Known: phalaenopsis, pleurothallid.'],
      ['__proto__', 'Known: phalaenopsis, pleurothallid.'],
      ['x'.repeat(10_000), 'Known: phalaenopsis, pleurothallid.'],
    ].map(([name, fix]) => ({ start: name!.slice(0, 20), name: name!, fix })),
  )('offers the nearest plants for $start', ({ name, fix }) => {
    const [problem] = problemsOf(findPlants(littleCatalog(), name, { file: 'bench.yaml', line: 9 }));
    expect(problem).toMatchObject({ code: 'name-unknown', where: { file: 'bench.yaml', line: 9 }, fix });
  });

  it('tells every problem of every file at once, in the order of files and lines', () => {
    const result = withFiles({
      plants: 'id,name,synonyms,media\nphalaenopsis,Moth orchids,phal,mosss;bark\nphalaenopsis,Again,,bark\n',
      bands: 'plants,nutrient,min,aim,max\nphalenopsis,N,5,3,9\n*,Nn,1,2,3\n*,Fe,,,\n*,P,1,,2\n*,P,1,,2\n',
      factors: 'plants,medium,phase,nutrient,factor\n*,brak,winter,*,0.5\n*,*,*,*,many\n',
      rules: 'plants,medium,phase,rule\n*,*,*,NH4 <=\n*,*,summr,NH4 <= 0.5 * N\n',
      waters: 'id,name,Ca,pH,alkalinity\nrain,Rain,-3,17,abc\n',
    });
    expect(problemsOf(result).map((p) => `${p.where.file}:${p.where.line} ${p.code}`)).toMatchObject([
      'catalog/plants.csv:2 name-unknown',
      'catalog/plants.csv:3 id-twice',
      'catalog/plants.csv:3 name-shared',
      'catalog/waters.csv:2 number-negative',
      'catalog/waters.csv:2 number-range',
      'catalog/waters.csv:2 number-expected',
      'catalog/bands.csv:2 name-unknown',
      'catalog/bands.csv:2 band-crossed',
      'catalog/bands.csv:3 name-unknown',
      'catalog/bands.csv:4 band-empty',
      'catalog/bands.csv:6 row-twice',
      'catalog/factors.csv:2 name-unknown',
      'catalog/factors.csv:3 number-expected',
      'catalog/rules.csv:2 rule',
      'catalog/rules.csv:3 name-unknown',
    ]);
    expect(told(result)).toContain(
      'catalog/plants.csv:2 (media): found "mosss"; expected a medium. Did you mean sphagnum?',
    );
  });

  it('asks for every medium and phase the program knows, and for no other', () => {
    const result = withFiles({
      media: 'id,name\nsphagnum,Moss\n',
      phases: 'id,name\ngrowth,G\nbloom,B\nrest,R\nmonsoon,M\n',
    });
    expect(codes(problemsOf(result))).toEqual(expect.arrayContaining(['row-missing@-', 'name-unknown@5']));
  });

  it('gives the right factors where a water report states ions', () => {
    const factor = (header: string) => {
      const [problem] = problemsOf(withFiles({ waters: `id,${header}\nwell,1\n` }));
      return Number(/× (\d\.\d+)\)/.exec(problem!.fix)![1]);
    };
    // rounded to three decimals, as printed
    expect(factor('NO3')).toBeCloseTo(massShare('N', 'NO3'), 3);
    expect(factor('NH4')).toBeCloseTo(massShare('N', 'NH4'), 3);
    expect(factor('SO4')).toBeCloseTo(massShare('S', 'SO4'), 3);
    expect(factor('PO4')).toBeCloseTo(massShare('P', 'PO4'), 3);
    expect(factor('HCO3')).toBeCloseTo(formula('CaCO3').molarMass / 2 / formula('HCO3').molarMass, 3);
  });
});
