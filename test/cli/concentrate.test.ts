import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { concentrateShape } from '../../src/report/concentrate-shapes.js';
import { folder, velamen } from './world.js';

const HOAGLAND =
  '0.50551 g potassium-nitrate + 1.18073 g calcium-nitrate + 0.136084 g monopotassium-phosphate + 0.492932 g magnesium-sulfate in 1 L';
const SHELF = 'id,form,formula\nkno3,powder,KNO3\nmkp,powder,KH2PO4\n';
const run = (...argv: string[]) => velamen(['concentrate', '--water', 'pure', ...argv], folder({ 'shelf.csv': SHELF }));

describe('concentrate', () => {
  it('prints the object that its shape promises', async () => {
    const made = await run('--recipe', HOAGLAND, '--json');
    expect(made.exit).toBe(0);
    const result = concentrateShape.parse(JSON.parse(made.stdout));
    expect(result).toMatchObject({ status: 'made', ratio: 100, dosePerLitre: 10, feed: null, recipe: HOAGLAND });
    expect(result.tanks.map((tank) => tank.name)).toEqual(['A', 'B']);
  });

  it('tells on the label what falls out where the bottles meet, also where no phosphate is near', async () => {
    const made = await run('--recipe', '1 g calcium-nitrate + 0.5 g magnesium-sulfate in 1 L');
    expect(made.stdout.replace(/\s+/g, ' ')).toContain(
      'NEVER undiluted together with B (calcium falls out with sulfate and phosphate).',
    );
  });

  it('leads several feeds with one overview, and tells their cautions once', async () => {
    const all = await velamen(
      ['concentrate', '--bench', 'examples/what-the-shelf-reaches', '--ratio', '1:50'],
      join(import.meta.dirname, '../..'),
    );
    const [overview, ...reports] = all.stdout.split('\n\n\n');
    expect(overview).toMatch(
      /^Stock solutions at 1:50\n[\s\S]*moth-orchids +NONE: no feed keeps every limit[\s\S]*winter +(one|two) bottle/,
    );
    expect(reports).toHaveLength(4);
    expect(all.stdout.match(/Take care/g)).toHaveLength(1);
    expect(reports[3]).toMatch(/^Take care\n/);
  });

  it('weighs in steps of the scale', async () => {
    const shelf = 'id,form,formula,on_hand\nkno3,powder,KNO3,1 kg\nmkp,powder,KH2PO4,1 kg\n';
    const bench = 'water: { use: pure }\nkit: { scale: 0.1 g }\n';
    const home = folder({ 'shelf.csv': shelf, 'bench.yaml': bench });
    // 0.1234 g in a litre of feed are 12.34 g in a litre of stock at 1:100
    const made = await velamen(['concentrate', '--recipe', '0.1234 g kno3 + 0.05 g mkp in 1 L'], home);
    expect(made.stdout).toMatch(/Stir in 12\.3 g of kno3/);
    const half = await velamen(['concentrate', '--recipe', '0.01234 g kno3 + 0.05 g mkp in 1 L'], home);
    expect(half.stdout).toMatch(/Stir in 1\.2 g of kno3/);
  });

  it('takes a dose for the ratio', async () => {
    const [ratio, dose] = await Promise.all([
      run('--recipe', HOAGLAND, '--ratio', '1:50', '--json'),
      run('--recipe', HOAGLAND, '--dose', '20 mL/L', '--json'),
    ]);
    expect(ratio.exit).toBe(0);
    expect(dose.stdout).toBe(ratio.stdout);
  });

  it('refuses a ratio that cannot hold, with the largest that does and why', async () => {
    const refused = await run('--recipe', HOAGLAND, '--ratio', '1:20', '--tanks', '1', '--json');
    expect(refused.exit).toBe(3);
    const result = concentrateShape.parse(JSON.parse(refused.stdout));
    expect(result.status).toBe('too strong');
    expect(result.why.join()).toContain(
      'calcium sulfate (gypsum) would come out, from Calcium nitrate tetrahydrate with Magnesium sulfate heptahydrate (Epsom salt)',
    );
    const one = result.largest.find((line) => line.tanks === 1)!;
    const again = await run('--recipe', HOAGLAND, '--ratio', `1:${one.ratio}`, '--tanks', '1');
    expect(again.exit).toBe(0);
  });

  it('says so where there is no feed to concentrate', async () => {
    const none = await run('--plants', 'phalaenopsis', '--medium', 'bark');
    expect(none.exit).toBe(3);
    expect(none.stdout.replace(/\s+/g, ' ')).toContain('`velamen blend` says why');
  });

  it('writes grams, doses, labels and the jar test for a feed of a bench', async () => {
    const made = await velamen(
      ['concentrate', '--bench', 'examples/moss-without-ammonium', '--jug', '500 mL'],
      new URL('../../', import.meta.url).pathname,
    );
    expect(made.exit).toBe(0);
    for (const said of [
      'Stock bottle A (calcium)',
      'Stock bottle B',
      'Label for bottle A',
      'NOT FOR DRINKING',
      'Jar test',
      'Never mix A and B',
    ])
      expect(made.stdout).toContain(said);
  });
});

describe('what concentrate refuses', () => {
  it.each([
    [['--recipe', HOAGLAND, '--ratio', '100:1'], 'did you mean 1:100?'],
    [['--recipe', HOAGLAND, '--ratio', '1:0'], 'Neither side can be nothing'],
    [['--recipe', HOAGLAND, '--ratio', '1:1'], 'no stock but the feed itself'],
    [['--recipe', HOAGLAND, '--ratio', 'strong'], 'Write for example 1:100'],
    [['--recipe', HOAGLAND, '--ratio', '1:5000'], 'Less than 1 mL'],
    [['--recipe', HOAGLAND, '--dose', '1200 mL/L'], 'more than the litre itself'],
    [['--recipe', HOAGLAND, '--dose', '600 mL/L'], 'no stock but the feed itself'],
    [['--recipe', HOAGLAND, '--dose', '0 mL/L'], 'Nothing is no dose'],
    [['--recipe', HOAGLAND, '--dose', '10 g'], '10 mL/L'],
    [['--recipe', HOAGLAND, '--dose', '10 mL/L', '--ratio', '1:100'], 'one of the two'],
    [['--recipe', HOAGLAND, '--coldest', '-5 °C'], 'free of frost'],
    [['--recipe', HOAGLAND, '--coldest', '20 °F'], 'free of frost'],
    [['--recipe', HOAGLAND, '--coldest', 'cellar'], '10 °C'],
    [['--recipe', HOAGLAND, '--jug', '5 mL'], 'a volume from 10 mL'],
    [['--recipe', HOAGLAND, '--jug', '500 g'], 'a volume from 10 mL'],
    [['--recipe', HOAGLAND, '--tanks', '3'], '1 or 2'],
    [['--recipe', '1 g unobtainium in 1 L'], 'unobtainium'],
    [['--recipe', HOAGLAND, '--strength', '80 %'], 'Leave --strength out'],
    [['--recipe', HOAGLAND, '--with', 'urea'], 'Leave --with out'],
  ])('%j', async (argv, said) => {
    const refused = await run(...argv);
    expect(refused.exit).toBe(2);
    expect(refused.stdout).toBe('');
    expect(refused.stderr.replace(/\s+/g, ' ')).toContain(said);
  });

  it('an unknown feed', async () => {
    const refused = await velamen(
      ['concentrate', '--bench', 'examples/moss-without-ammonium', '--feed', 'mos'],
      new URL('../../', import.meta.url).pathname,
    );
    expect(refused.exit).toBe(2);
    expect(refused.stderr).toContain('Did you mean moss?');
  });
});
