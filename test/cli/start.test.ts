import { mkdirSync, readdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { startShape, checkShape } from '../../src/report/start-shapes.js';
import { labelsShape } from '../../src/report/schemas.js';
import { folder, velamen } from './world.js';

const LABEL =
  'Pond Heron 14-4-14\nTotal Nitrogen (N) 14%\n 13% Nitrate Nitrogen\n 1% Ammoniacal Nitrogen\nAvailable Phosphate (P2O5) 4%\nSoluble Potash (K2O) 14%\nCalcium (Ca) 5%\nMagnesium (Mg) 2%';
const BASE =
  'Base 6-10-29: 6 % nitrate nitrogen, 10 % P2O5, 29 % K2O, 2.7 % Mg, 3.9 % S, 0.29 % Fe, 0.097 % Mn, 0.03 % Zn, 0.012 % Cu, 0.034 % B, 0.0031 % Mo. Derived from: potassium nitrate, monopotassium phosphate, magnesium sulfate, potassium sulfate, iron EDTA, manganese EDTA, zinc EDTA, copper EDTA, boric acid, sodium molybdate';
const LIME =
  'Lime 11-0-0\nNitrate nitrogen 11.5 %\nCalcium 13.2 %\nMagnesium 1.9 %\nDerived from calcium nitrate, magnesium nitrate';
const TOLD = [
  '--plants',
  'moth orchids in bark',
  '--mix',
  '4 L',
  '--kit',
  '0.01 g scale',
  '--scale',
  '500',
  '--water',
  'rain',
];
/** Plants that rest unfed: nothing has to be solved for them. */
const QUICK = ['--label', LABEL, '--plants', 'deciduous orchid in bark', '--phase', 'rest', '--water', 'rain'];
const ALL = ['--label', BASE, '--label', LIME, ...TOLD];
const at = (home: string, name: string): string => readFileSync(join(home, name), 'utf8');

describe('start', () => {
  it('makes a bench that every command reads', async () => {
    const home = folder();
    const ran = await velamen(['start', 'mine', ...ALL, '--json'], home);
    expect(ran.exit, ran.stderr).toBe(0);
    const { files, cans } = startShape.parse(JSON.parse(ran.stdout));
    expect(readdirSync(join(home, 'mine')).sort()).toEqual([...files].sort());
    expect(readdirSync(home)).toEqual(['mine']);
    const blend = await velamen(['blend', '--bench', 'mine', '--json'], home);
    const fed = JSON.parse(blend.stdout) as { items: { id: string; measures: { words: string }[] }[] };
    expect(cans[0]!.items.map(({ id, measure }) => [id, measure])).toEqual(
      fed.items.map(({ id, measures }) => [id, measures[0]!.words]),
    );
    for (const argv of [
      ['labels'],
      ['check'],
      ['reach'],
      ['meter', '--recipe', '1 g base in 4 L', '--reading', '200 ppm'],
      ['assess', '1 g base in 4 L'],
      // the bare mix is the quick one, and reads no less of the bench
      ['sheet', '--bare'],
    ])
      expect([0, 3], argv.join(' ')).toContain((await velamen([...argv, '--bench', 'mine'], home)).exit);
  });

  it('never writes over what is there, and then nothing at all', async () => {
    for (const name of ['shelf.csv', 'bench.yaml', 'bench.schema.json']) {
      const home = folder({ [`mine/${name}`]: 'my own' });
      const ran = await velamen(['start', 'mine', ...QUICK], home);
      expect(ran).toMatchObject({ exit: 2, stdout: '' });
      expect(ran.stderr).toContain(`mine/${name}`);
      expect(readdirSync(join(home, 'mine'))).toEqual([name]);
      expect(at(home, `mine/${name}`)).toBe('my own');
    }
  });

  it('begins in the current folder too, beside other files; and leaves no folder where it is refused', async () => {
    const home = folder({ 'notes.txt': 'mine' });
    expect((await velamen(['start', ...QUICK], home)).exit).toBe(0);
    expect(readdirSync(home).sort()).toEqual(['bench.schema.json', 'bench.yaml', 'notes.txt', 'shelf.csv']);
    expect((await velamen(['start', 'other', '--label', 'nothing'], home)).exit).toBe(2);
    expect((await velamen(['start', 'no/such/place', ...QUICK], home)).exit).toBe(2);
    expect((await velamen(['start', 'notes.txt', ...QUICK], home)).exit).toBe(2);
    for (const name of ['n'.repeat(400), 'a\u0000b', '/dev/null', 'notes.txt/in'])
      expect((await velamen(['start', name, ...QUICK], home)).exit, name.slice(0, 20)).toBe(2);
    expect(readdirSync(home)).toHaveLength(4);
  });

  it('reads labels from files', async () => {
    const home = folder({ 'a.txt': LABEL });
    expect((await velamen(['start', 'mine', '--label', 'a.txt', ...QUICK.slice(2)], home)).stdout).toContain('14-4-14');
  });
});

describe('check', () => {
  it('tells every doubt, and every problem with the doubts beside it', async () => {
    const home = folder();
    await velamen(['start', 'mine', ...QUICK], home);
    const doubts = await velamen(['check', '--bench', 'mine', '--json'], home);
    expect(doubts.exit).toBe(0);
    expect(checkShape.parse(JSON.parse(doubts.stdout)).status).toBe('doubtful');
    writeFileSync(join(home, 'mine/bench.yaml'), at(home, 'mine/bench.yaml').replace('medium: bark', 'mediun: bark'));
    writeFileSync(join(home, 'mine/shelf.csv'), at(home, 'mine/shelf.csv').replace(',powder,', ',powdr,'));
    const wrong = await velamen(['check', '--bench', 'mine'], home);
    expect(wrong).toMatchObject({ exit: 2, stdout: '' });
    for (const word of ['mediun', 'powdr']) expect(wrong.stderr).toContain(word);
  });

  it('finds the examples sound', async () => {
    for (const name of ['spoons-alone', 'moss-without-ammonium', 'what-the-shelf-reaches', 'what-to-buy']) {
      const bench = join(import.meta.dirname, '../../examples', name);
      expect((await velamen(['check', '--bench', bench], bench)).exit).toBe(0);
    }
  });
});

describe('labels --add', () => {
  const SHELVES: readonly [string, string, string][] = [
    ['commas', 'id,name,form,N\nold,Old,powder,10\n', '\npond-heron,Pond Heron 14-4-14,powder,14,'],
    [
      'semicolons and decimal commas',
      'id;name;form;N;Mg\r\nold;Old;powder;10,5;0,5\r\n',
      '\r\npond-heron;Pond Heron 14-4-14;powder;14;2;',
    ],
    [
      'a comment at the end and no last line end',
      '# mine\nid,form,K2O (%),N\nold,powder,,10\n# the end',
      '\npond-heron,powder,14,14,',
    ],
  ];

  it.each(SHELVES)('keeps a file with %s as it is', async (_, shelf, row) => {
    const home = folder({ 'shelf.csv': shelf });
    const ran = await velamen(['labels', '--add', LABEL, '--json'], home);
    expect(ran.exit, ran.stderr).toBe(0);
    expect(labelsShape.parse(JSON.parse(ran.stdout))).toMatchObject({ added: { id: 'pond-heron', file: 'shelf.csv' } });
    const now = at(home, 'shelf.csv');
    expect(now).toContain(row);
    for (const word of shelf.split(/[\r\n]+/)) expect(now).toContain(word);
    const all = await velamen(['labels', '--json'], home);
    const { products } = labelsShape.parse(JSON.parse(all.stdout));
    expect(products.map(({ id }) => id)).toEqual(['old', 'pond-heron']);
    const ca = products[1]!.elements.find(({ element }) => element === 'Ca');
    expect(ca?.mgPerLitre).toBe(50);
    expect(at(home, 'shelf.csv.before')).toBe(shelf);
  });

  it('refuses an id that is there, a text without figures, and a folder without a shelf', async () => {
    const shelf = 'id,name,form,N\nPOND-HERON,Old,powder,10\n';
    const home = folder({ 'shelf.csv': shelf });
    const clash = await velamen(['labels', '--add', LABEL], home);
    expect(clash.exit).toBe(2);
    expect(clash.stderr).toContain('shelf.csv:2 (id)');
    expect((await velamen(['labels', '--add', 'nothing'], home)).exit).toBe(2);
    expect(at(home, 'shelf.csv')).toBe(shelf);
    mkdirSync(join(home, 'bare'));
    expect((await velamen(['labels', '--add', LABEL, '--shelf', 'bare/shelf.csv'], home)).exit).toBe(2);
    expect((await velamen(['labels', '--add', LABEL, '--catalog'], home)).stderr).toContain('--add and --catalog');
  });

  it('takes a plain salt by its name', async () => {
    const home = folder({ 'shelf.csv': 'id,form,N\nold,powder,10\n' });
    expect((await velamen(['labels', '--add', 'Epsom salt'], home)).stdout).toContain(
      'magnesium-sulfate stands on shelf.csv now',
    );
  });
});
