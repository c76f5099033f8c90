import { describe, expect, it } from 'vitest';
import {
  assessShape,
  blendCannotShape,
  blendMadeShape,
  blendShape,
  labelsShape,
  programmesShape,
  refusedShape,
} from '../../src/report/schemas.js';
import { reachAgainstShape, reachAllShape } from '../../src/report/reach-shapes.js';
import { folder, velamen } from './world.js';

/** Generic salts, enough for the major elements; prices invented. */
const SHELF = `id,name,form,formula,pack,price
kno3,potassium nitrate,powder,KNO3,1 kg,7.5
cano3,calcium nitrate,powder,Ca(NO3)2·4H2O,1 kg,4
mgso4,magnesium sulfate,powder,MgSO4·7H2O,1 kg,3.9
mkp,monopotassium phosphate,powder,KH2PO4,1 kg,9.5
`;
const TRACE = `id,name,form,basis,Fe,Mn,Zn,Cu,B,Mo,Na,Cl,S,pack,price
trace,trace elements,liquid,w/v,0.2,0.06,0.02,0.006,0.02,0.002,0,0,0,250 mL,8
`;
const MOTH = ['--plants', 'moth orchids', '--medium', 'moss', '--shelf', 'shelf.csv'];

describe('a feed without a bench', () => {
  it('is blended from options alone', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(
      ['blend', ...MOTH, '--mix', '1 US gal', '--currency', 'EUR', '--with', 'sample-trace-liquid', '--json'],
      home,
    );
    const result = blendShape.parse(JSON.parse(ran.stdout));
    expect(result.feed).toMatchObject({
      plants: 'phalaenopsis',
      medium: 'sphagnum',
      phase: 'growth',
      strength: '100 %',
      currency: 'EUR',
    });
    expect(result.feed.batchLitres).toBeCloseTo(3.785411784, 9);
    expect(result.status).toBe('optimal');
    expect(ran.exit).toBe(0);
    expect(ran.stderr).toContain('Rain water is assumed');
  });

  it('exits with 3 and says why where it cannot be met', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(['blend', ...MOTH, '--water', 'pure', '--rule', 'K >= 400'], home);
    expect(ran.exit).toBe(3);
    expect(ran.stdout).toContain('no feed keeps every limit');
    const json = await velamen(['blend', ...MOTH, '--water', 'pure', '--rule', 'K >= 400', '--json'], home);
    const result = blendCannotShape.parse(JSON.parse(json.stdout));
    expect(result.status).toBe('infeasible');
    expect(result.conflict.length).toBeGreaterThan(0);
    expect(result.proof.verdict).toBe('infeasible');
  });

  it('takes an own analysis of the water, own rules and an ammonium share', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(
      [
        'blend',
        ...MOTH,
        '--water',
        'Ca=20, Mg=4, alkalinity=60',
        '--nh4',
        '5 %',
        '--rule',
        'Ca >= 2.5 * Mg',
        '--rule',
        'EC <= 1.1',
        '--with',
        'sample-trace-liquid',
        '--json',
      ],
      home,
    );
    const result = blendMadeShape.parse(JSON.parse(ran.stdout));
    expect(result.rules.filter((rule) => rule.from === 'you').map((rule) => rule.rule)).toEqual([
      'Ca >= 2.5 * Mg',
      'NH4 <= 0.05 * N',
    ]);
    expect(result.ec.max).toBe(1.1);
    expect(result.elements.find((e) => e.element === 'Ca')?.mgPerLitre).toBeGreaterThanOrEqual(20);
  });

  it('prints the same bytes twice', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const line = ['blend', ...MOTH, '--with', 'sample-trace-liquid', '--json'];
    expect((await velamen(line, home)).stdout).toBe((await velamen(line, home)).stdout);
  });
});

describe('a bench', () => {
  const bench = `name: Hollow Row\ncurrency: EUR\nwater: { use: rain }\npen: { scale: 700 }\nfeeds:\n  moss: { plants: moth orchid, medium: moss, strength: 60 %, batch: 2 L }\n  bark: { plants: cattleya, medium: bark, batch: 5 L }\n`;
  const files = { 'bench.yaml': bench, 'shelf.csv': SHELF };

  it('prints every feed in its order, and one in JSON', async () => {
    const home = folder(files);
    const all = await velamen(['blend', '--with', 'sample-trace-liquid'], home);
    expect(all.stdout.indexOf('moss: ')).toBeLessThan(all.stdout.indexOf('bark: '));
    const json = await velamen(['blend', '--json'], home);
    expect(json.exit).toBe(2);
    expect(refusedShape.parse(JSON.parse(json.stdout)).problems[0]?.fix).toBe('Name one with --feed: moss, bark.');
  });

  it('is overridden by options, its rules are added to', async () => {
    const home = folder(files);
    const ran = await velamen(
      [
        'blend',
        '--feed',
        'moss',
        '--strength',
        'N: 50 mg/L',
        '--phase',
        'bloom',
        '--mix',
        '8 L',
        '--with',
        'sample-trace-liquid',
        '--json',
      ],
      home,
    );
    expect(blendShape.parse(JSON.parse(ran.stdout)).feed).toMatchObject({
      name: 'moss',
      phase: 'bloom',
      strength: 'N 50 mg/L',
      batchLitres: 8,
    });
  });

  it('reaches, alone and against a neighbour', async () => {
    const home = folder({ ...files, 'other/shelf.csv': TRACE });
    const ran = await velamen(['reach', '--feed', 'moss', '--json'], home);
    const alone = reachAgainstShape.parse(JSON.parse(ran.stdout));
    expect(alone.elements.find((e) => e.element === 'Fe')).toMatchObject({ reachable: false });
    expect(ran.exit).toBe(3);
    const both = await velamen(['reach', '--feed', 'moss', '--against', 'other', '--json'], home);
    expect(reachAgainstShape.parse(JSON.parse(both.stdout)).against?.shelf).toBe('other/shelf.csv');
    expect((await velamen(['reach', '--feed', 'moss', '--against', 'other'], home)).stdout).toContain(
      'two shelves side by side',
    );
  });

  it('surveys all feeds at once', async () => {
    const home = folder(files);
    const json = await velamen(['reach', '--all', '--json'], home);
    const result = reachAllShape.parse(JSON.parse(json.stdout));
    expect([json.exit, result.status, result.feeds.map((f) => f.feed.name)]).toEqual([
      3,
      'out of reach',
      ['moss', 'bark'],
    ]);
    const text = await velamen(['reach', '--all', '--with', 'sample-trace-liquid'], home);
    expect(text.stdout).toContain('2 of 2 feeds can be mixed from this shelf.');
    expect((await velamen(['reach', '--all', '--feed', 'moss'], home)).exit).toBe(2);
  });

  it('assesses a recipe, judged by a feed or not', async () => {
    const home = folder(files);
    const judged = await velamen(['assess', '1 g kno3 in 4 L', '--feed', 'bark', '--json'], home);
    expect(assessShape.parse(JSON.parse(judged.stdout)).status).toBe('outside');
    expect(judged.exit).toBe(3);
    const plain = await velamen(['assess', '1 g kno3 in 4 L', '--water', 'pure', '--json'], home);
    const result = assessShape.parse(JSON.parse(plain.stdout));
    expect([plain.exit, result.status]).toEqual([0, 'no programme']);
    // 1 g KNO3 in 4 L: 250 mg/L × 14.007 / 101.102 of N (CIAAW 2021 weights), less than the last printed digit apart
    expect(result.elements.find((e) => e.element === 'N')?.mgPerLitre).toBeCloseTo((250 * 14.007) / 101.102, 6);
    // the catalog knows what a spoon of Epsom salt weighs, and that it varies by a fifth; of a powder of one's own nobody knows
    const spoon = await velamen(['assess', '1 g kno3 + 1/4 tsp mgso4 in 4 L'], home);
    expect(spoon.exit).toBe(0);
    expect(spoon.stdout).toContain('(0.95 ± 0.19 g/mL');
    const own = folder({ ...files, 'shelf.csv': 'id,form,K2O\nown,powder,20\n' });
    const unknown = await velamen(['assess', '1/4 tsp own in 4 L'], own);
    expect(unknown).toMatchObject({ exit: 2, stdout: '' });
    expect(unknown.stderr).toContain('bulk');
  });

  it('reads its labels', async () => {
    const home = folder(files);
    const ran = await velamen(['labels', '--json'], home);
    expect(labelsShape.parse(JSON.parse(ran.stdout)).products.map((p) => p.id)).toEqual([
      'kno3',
      'cano3',
      'mgso4',
      'mkp',
    ]);
    const mkp = labelsShape.parse(JSON.parse(ran.stdout)).products[3]!;
    // KH2PO4 1 g/L is 7.35 mmol/L; pH of H2PO4- alone: half of pK1 2.15 + pK2 7.20 is 4.7 (CRC Handbook, from memory), 0.15 for the ions
    expect(Math.abs(mkp.ph.value - 4.7)).toBeLessThan(0.15);
    expect(mkp.precipitation.every((line) => line.verdict === 'clear')).toBe(true);
    expect((await velamen(['labels', 'mkp', '--csv'], home)).stdout).toContain('mkp,g/L');
    expect((await velamen(['labels', '--catalog', '--shelf', 'shelf.csv'], home)).exit).toBe(2);
  });
});

describe('labels tell of each product', () => {
  const lines = async (shelf: string) =>
    (await velamen(['labels'], folder({ 'shelf.csv': shelf }))).stdout.replace(/\s+/g, ' ');

  it('EC with its range, pH and whether it stays clear', async () => {
    const told = await lines('id,form,P2O5,Ca,derived_from\ndical,powder,41,23,dicalcium phosphate\n');
    expect(told).toMatch(/EC about [\d.]+ mS\/cm \([\d.]+ to [\d.]+\) from 1 g\/L, by the salts it names/);
    expect(told).toMatch(/pH about \d\.\d as mixed, \d\.\d \(\d\.\d to \d\.\d\) after standing in air, at 1 g\/L/);
    // dicalcium phosphate dissolves some 0.2 g/L (CRC Handbook, from memory), so a gram cannot
    expect(told).toContain('in water at 1 g/L: calcium phosphate (brushite), from dical: will cloud.');
  });

  it('no acid that only the charges left over would need: a powder of nitrate and some potassium', async () => {
    const read = await velamen(
      ['labels', '--json'],
      folder({ 'shelf.csv': 'id,form,NO3-N,N,K2O,P2O5\nbare,powder,10,10,10,5\n' }),
    );
    const [bare] = labelsShape.parse(JSON.parse(read.stdout)).products;
    // nitric acid for all nitrate without potassium would be pH 2.3; phosphates of powders stand at 4 to 5
    expect(bare!.ph.low).toBeGreaterThan(3.5);
  });
});

describe('refusals', () => {
  it('tell everything at once, with file and line', async () => {
    const home = folder({
      'shelf.csv': SHELF.replace('KNO3,1 kg', 'KNQ3,1 furlong').replace('powder,MgSO4', 'powdr,MgSO4'),
    });
    const ran = await velamen(
      [
        'blend',
        '--plants',
        'moth orchyd',
        '--medium',
        'moss',
        '--shelf',
        'shelf.csv',
        '--nh4',
        '30',
        '--mix',
        '4 gal',
        '--strength',
        '90',
      ],
      home,
    );
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    for (const part of ['shelf.csv:2', 'shelf.csv:4', '--nh4', '--plants', '--mix', '--strength', 'moth orchyd'])
      expect(ran.stderr).toContain(part);
  });

  it.each([
    [['blend'], '--plants and --medium'],
    [['blend', '--plants', 'fern'], 'Add --medium.'],
    [['blend', '--bench', 'nowhere'], '--bench'],
    [['blend', '--feed', 'moss'], '--feed'],
    [['blend', '--plants', 'fern', '--medium', 'peat'], 'no shelf.csv'],
    [['blend', ...MOTH], 'shelf.csv'],
    [['assess'], 'no recipe'],
    [['reach', ...MOTH, '--against', 'nowhere.csv'], 'nowhere.csv'],
    [['labels'], 'no shelf.csv'],
  ])('%j: %s', async (argv, hint) => {
    const ran = await velamen(argv, folder());
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr).toContain(hint);
  });

  it('of a faulty bench name the fault and nothing that follows from it', async () => {
    const home = folder({
      'bench.yaml': 'water: { use: rian }\nfeeds:\n  moss: { plants: fern, medium: mos }\n',
      'shelf.csv': SHELF,
    });
    const ran = await velamen(['blend', '--json'], home);
    const places = refusedShape
      .parse(JSON.parse(ran.stdout))
      .problems.map((p) => `${p.where.file}:${p.where.line} ${p.where.field}`);
    expect(places).toEqual(['bench.yaml:1 water.use', 'bench.yaml:3 feeds.moss.medium']);
    const nowhere = await velamen(['blend', '--bench', 'nowhere', '--json'], home);
    expect(refusedShape.parse(JSON.parse(nowhere.stdout)).problems).toHaveLength(1);
  });

  it('refuse what stands on the shelf already, or does not', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(['blend', ...MOTH, '--with', 'sample-trac-liquid', '--without', 'kn03'], home);
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('Did you mean sample-trace-liquid');
    expect(ran.stderr).toContain('Did you mean kno3');
  });
});

describe('--programmes', () => {
  it('lists what is known, and one in full', async () => {
    const all = await velamen(['blend', '--programmes', '--json'], folder());
    expect(programmesShape.parse(JSON.parse(all.stdout)).programmes.length).toBeGreaterThan(100);
    const one = await velamen(['blend', '--programmes', '--plants', 'moth orchid', '--medium', 'bark'], folder());
    expect(one.stdout).toContain('phalaenopsis in bark, growth');
    expect(one.stdout).toContain('Where the numbers come from');
    const none = await velamen(['blend', '--programmes', '--plants', 'vanda', '--medium', 'peat'], folder());
    expect(none.exit).toBe(2);
    expect((await velamen(['blend', '--programmes', '--closest'], folder())).stderr).toContain('Leave out --closest.');
  });
});
