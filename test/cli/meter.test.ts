import { chmodSync, readdirSync, readFileSync, statSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { withCell } from '../../src/catalog/edit-cell.js';
import { readProducts } from '../../src/catalog/shelf.js';
import { bulkDensityOf } from '../../src/dose/density.js';
import { closeShelf } from '../../src/label/close.js';
import { unwrap } from '../../src/problem.js';
import { SHAPES } from '../../src/report/schemas.js';
import { folder, velamen } from './world.js';

const MOSS = join(import.meta.dirname, '../../examples', 'moss-without-ammonium');
const BENCH = ['--bench', MOSS];

const SHELF = [
  '# my shelf, with a comment, and commas',
  'id,name,form,N,NO3-N,K2O,bulk_density,notes',
  'kn,"Nitrate, of potassium",powder,13,13,46,,"says ""dry"""',
  '',
  'other,Other,powder,10,10,10,1.1,',
  '',
].join('\r\n');

const trial = ['meter', '--calibrate', '--shelf', 'shelf.csv', '--water', 'rain', '--spoon', '1/4 tsp', '--count', '4'];
const readings = ['--before', '0.02', '--after', '1.62', '--measured', '4 L', '--product', 'kn', '--save'];

describe('meter', () => {
  it.each([
    [['--reading', '0.252'], 0, 'within'],
    [['--reading', '170 ppm'], 0, 'off'],
    [['--reading', '126'], 0, 'within'],
    [
      ['--reading', '1: 0.02', '--reading', 'step 2 = 0.165', '--reading', '3: 0.28', '--reading', 'end: 0.29'],
      0,
      'off',
    ],
    [['--reading', '0.189', '--temperature', '12 °C', '--compensates', 'no'], 0, 'within'],
    [['--reading', '0.252', '--measured', '5.5 L'], 0, 'off'],
  ] as const)('%j', async (argv, exit, verdict) => {
    const ran = await velamen(['meter', ...BENCH, ...argv, '--json'], MOSS);
    expect(ran.exit).toBe(exit);
    const json = JSON.parse(ran.stdout);
    expect(SHAPES.get('meter')!.parse(json)).toBeTruthy();
    expect(json.judgement.verdict).toBe(verdict);
  });

  it('a recipe of one’s own is judged without a programme; no remedy then', async () => {
    const recipe = '1 g potassium-nitrate + 1 g magnesium-sulfate in 4 L';
    const ran = await velamen(['meter', '--recipe', recipe, '--water', 'rain', '--reading', '1.2', '--json'], folder());
    const json = JSON.parse(ran.stdout);
    expect(ran.exit).toBe(0);
    expect(json.remedy).toBeNull();
    expect(json.judgement.verdict).toBe('off');
  });

  it('a recipe by the spoon takes the catalog’s bulk density, as the sheet does', async () => {
    const home = folder({
      'bench.yaml': 'name: x\nwater: rain\nfeeds:\n  moss: { plants: pleurothallid, medium: sphagnum }\n',
      'shelf.csv': 'id,name,form,formula\nnitre,Nitre,powder,KNO3\nbitter,Bitter salt,powder,MgSO4·7H2O\n',
    });
    const asked = ['meter', '--recipe', '1/4 tsp nitre + 1/2 tsp bitter in 4 L', '--reading', '0.9', '--json'];
    const ran = await velamen(asked, home);
    expect(ran.stderr).toBe('');
    const [nitre, bitter] = JSON.parse(ran.stdout).plan;
    expect(nitre).toMatchObject({ words: '1/4 tsp', name: 'Nitre' });
    expect(nitre.amount).toBeCloseTo(1.232 * 1.15, 2);
    expect(bitter.amount).toBeCloseTo(2.464 * 0.95, 2);
    const told = await velamen(['assess', '1/4 tsp nitre in 4 L'], home);
    expect(told.stdout.replace(/\n {4}/g, ' ')).toContain('(1.15 ± 0.23 g/mL; spoons vary by 5 to 15 %)');
  });

  it.each([
    ['no-reading', []],
    ['two-jobs', ['--reading', '0.2', '--calibrate']],
    ['beside-job', ['--reading', '0.2', '--count', '4']],
    ['pen-reading', ['--reading', 'green']],
    ['pen-reading', ['--reading', '4000 µS', '--reading', '99 mS']],
    ['pen-reading', ['--reading', '-0.2']],
    ['ppm-without-scale', ['--reading', '230 ppm', '--scale', 'EC']],
    ['pen-scale', ['--reading', '0.2', '--scale', '50']],
    ['unknown-step', ['--reading', '9: 0.2']],
    ['reading-twice', ['--reading', '0.2', '--reading', 'end: 0.3']],
    ['yes-or-no', ['--reading', '0.2', '--compensates', 'maybe']],
    ['temperature-missing', ['--reading', '0.2', '--compensates', 'no']],
    ['pen-factor', ['--reading', '0.2', '--pen-factor', '9']],
    ['volume', ['--reading', '0.2', '--brim', '3 mL']],
    ['can-too-small', ['--reading', '0.2', '--brim', '3 L']],
    ['can-too-small', ['--reading', '0.2', '--mix', '10 L', '--brim', '5 L']],
    ['beside-recipe', ['--reading', '0.2', '--recipe', '1 g potassium-nitrate in 4 L', '--sure', '90%']],
    ['trial-incomplete', ['--calibrate']],
    ['spoon', ['--calibrate', '--spoon', '3 L']],
    ['not-a-powder', ['--calibrate', '--product', 'sample-trace-liquid']],
    ['not-on-shelf', ['--calibrate', '--product', 'boric-acid', '--save']],
    ['reads-missing', ['--standard', '1413 µS']],
  ])('refuses: %s %j', async (code, argv) => {
    const bench = argv.includes('--standard') ? [] : BENCH;
    const ran = await velamen(['meter', ...bench, ...argv, '--json'], MOSS);
    expect(ran.exit).toBe(2);
    expect(JSON.parse(ran.stdout).problems.map((p: { code: string }) => p.code)).toContain(code);
  });

  it('a feed without a batch asks for the volume', async () => {
    const home = folder({
      'bench.yaml': 'name: x\nwater: rain\nfeeds:\n  moss: { plants: pleurothallid, medium: sphagnum }\n',
      'shelf.csv': readFileSync(join(MOSS, 'shelf.csv'), 'utf8'),
    });
    const ran = await velamen(['meter', '--reading', '0.2', '--json'], home);
    expect(JSON.parse(ran.stdout).problems.map((p: { code: string }) => p.code)).toContain('no-mix');
    expect((await velamen(['meter', '--reading', '0.2', '--measured', '4 L'], home)).exit).not.toBe(2);
  });

  it.each([
    [['--reading', '0.2', '--measured', '5 kg'], ['volume']],
    [['--reading', '0.2', '--bench', 'THREE'], ['one-feed']],
  ])('%j is told once, and nothing is told that follows from it', async (argv, codes) => {
    const three = join(import.meta.dirname, '../../examples', 'what-the-shelf-reaches');
    const words = argv.includes('THREE') ? argv.map((word) => (word === 'THREE' ? three : word)) : [...BENCH, ...argv];
    const ran = await velamen(['meter', ...words, '--json'], MOSS);
    expect(ran.exit).toBe(2);
    expect(JSON.parse(ran.stdout).problems.map((p: { code: string }) => p.code)).toEqual(codes);
  });

  it.each([
    [
      ['--sure', '90%'],
      ['--sure', '90%'],
    ],
    [['--closest'], ['--closest']],
    [
      ['--mix', '1 US gal'],
      ['--mix', '1 US gal'],
    ],
  ])('judges the doses of `sheet %j`', async (ofSheet, ofMeter) => {
    const sheet = JSON.parse((await velamen(['sheet', ...BENCH, ...ofSheet, '--json'], MOSS)).stdout);
    const ran = await velamen(['meter', ...BENCH, ...ofMeter, '--reading', '0.23', '--json'], MOSS);
    const told = JSON.parse(ran.stdout);
    expect(told.litres).toBeCloseTo(sheet.litres, 9);
    expect(told.plan.map((item: { id: string; words: string }) => [item.id, item.words])).toEqual(
      sheet.steps.map((step: { id: string; measures: { words: string }[] }) => [step.id, step.measures[0]!.words]),
    );
  });

  it.each([
    ['0', 'less than the water alone reads (10 ppm)'],
    ['5000 ppm', 'Look at the unit that the pen shows'],
  ])('a reading of %s, which no mistake explains, gets no remedy', async (shown, hint) => {
    const ran = await velamen(['meter', ...BENCH, '--reading', shown, '--json'], MOSS);
    expect(ran.exit).toBe(3);
    const json = SHAPES.get('meter')!.parse(JSON.parse(ran.stdout)) as Record<string, never>;
    expect(json.remedy).toBeNull();
    expect(json.judgement).toMatchObject({ verdict: 'unexplained' });
    expect((json.judgement as unknown as { beyond: string[] }).beyond.join(' ')).toContain(hint);
    const text = (await velamen(['meter', ...BENCH, '--reading', shown], MOSS)).stdout;
    expect(text).toContain('No can of this feed shows this');
    expect(text).not.toContain('likelihood');
  });

  it('expects at every step what the sheet says, within the same tolerance', async () => {
    const sheet = JSON.parse((await velamen(['sheet', ...BENCH, '--json'], MOSS)).stdout);
    const told = [
      sheet.water.reading,
      ...sheet.steps.map((s: { reading: object }) => s.reading),
      sheet.end.reading,
    ] as { mSPerCm: number; low: number; high: number }[];
    const readings = told.flatMap(({ mSPerCm }, i) => ['--reading', `${i + 1}: ${mSPerCm.toFixed(4)}`]);
    const ran = await velamen(['meter', ...BENCH, ...readings, '--json'], MOSS);
    const lines = JSON.parse(ran.stdout).judgement.readings as { expected: (typeof told)[number] }[];
    expect(lines).toHaveLength(told.length);
    lines.forEach(({ expected }, i) => {
      const { mSPerCm, low, high } = told[i]!;
      expect(Math.abs(expected.mSPerCm / mSPerCm - 1)).toBeLessThan(0.01);
      // the sheet takes what labels leave open whole, meter as a standard deviation: a fifth of the width between them
      expect((high - low) / (expected.high - expected.low)).toBeGreaterThan(0.8);
      expect((high - low) / (expected.high - expected.low)).toBeLessThan(1.25);
    });
  });

  it('a ppm pen that shows µS/cm is thought of first', async () => {
    const ran = await velamen(['meter', ...BENCH, '--reading', '252', '--json'], MOSS);
    const [first] = JSON.parse(ran.stdout).judgement.causes;
    expect(first).toMatchObject({ kind: 'scale', words: 'the pen shows µS/cm, not ppm on the 500 scale' });
  });

  it('a reading a little outside nine of ten is not called within', async () => {
    const { stdout } = await velamen(['meter', ...BENCH, '--reading', '133 ppm'], MOSS);
    expect(stdout).toMatch(/HIGH/);
    expect(stdout).toContain('as one in ten good batches is');
    expect(stdout).not.toMatch(/item:|Within tolerance/);
  });

  it('readings by which no powder could weigh so are refused, and nothing is saved', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    // 30 of a ppm pen, where 30 mS/cm was meant
    const ran = await velamen(
      [...trial, '--before', '10', '--after', '30', '--scale', '500', '--measured', '4 L', '--product', 'kn', '--save'],
      home,
    );
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('a level powder, 0.1 to 2.5 g/mL');
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(SHELF);
  });

  it('a trial that tells nothing says why', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    const ran = await velamen(
      [...trial, '--before', '0.5', '--after', '0.4', '--measured', '4 L', '--product', 'kn'],
      home,
    );
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('a reading that does not rise');
  });

  it('the standard: factor and verdict', async () => {
    const ran = await velamen(['meter', '--standard', '1413 µS', '--reads', '1350', '--json'], folder());
    const json = JSON.parse(ran.stdout);
    expect(SHAPES.get('standard')!.parse(json)).toMatchObject({ verdict: 'calibrate' });
    expect(json.factor).toBeCloseTo(1413 / 1350, 9);
    const again = await velamen(
      ['meter', '--standard', '1413 µS', '--reads', '1350', '--pen-factor', '1.0467', '--json'],
      folder(),
    );
    expect(JSON.parse(again.stdout).verdict).toBe('fine');
  });
});

describe('--save', () => {
  it('writes one cell and keeps every other byte', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    chmodSync(join(home, 'shelf.csv'), 0o640);
    const ran = await velamen([...trial, ...readings, '--json'], home);
    const json = JSON.parse(ran.stdout);
    expect(SHAPES.get('calibrate')!.parse(json)).toMatchObject({ saved: 'shelf.csv', id: 'kn' });
    const density = `${Number(json.bulkDensity.toPrecision(3))} +/- ${Number(json.bulkOff.toPrecision(2))}`;
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(SHELF.replace('46,,', `46,${density},`));
    expect(statSync(join(home, 'shelf.csv')).mode & 0o777).toBe(0o640);
    // it reads back with its uncertainty: two standard deviations either way
    const [kn] = await closeShelf(unwrap(readProducts(readFileSync(join(home, 'shelf.csv'), 'utf8'), 'shelf.csv')));
    const sd = Math.hypot(...json.from.map((part: { sd: number }) => part.sd));
    expect(bulkDensityOf(kn!)).toMatchObject({ gramsPerMillilitre: Number(json.bulkDensity.toPrecision(3)) });
    expect(bulkDensityOf(kn!)!.spread).toBeCloseTo(sd, 2);
    // the shelf as it was stays beside, and nothing else
    expect(readdirSync(home)).toEqual(['shelf.csv', 'shelf.csv.before']);
  });

  it('a finer weighing is not replaced by a coarser one in silence', async () => {
    const fine = SHELF.replace('46,,', '46,1.1 +/- 0.001,');
    const home = folder({ 'shelf.csv': fine });
    const ran = await velamen([...trial, ...readings], home);
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('a coarser weighing');
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(fine);
    // a coarser one on the shelf gives way
    writeFileSync(join(home, 'shelf.csv'), SHELF.replace('46,,', '46,1.1 +/- 0.9,'));
    expect((await velamen([...trial, ...readings], home)).exit).toBe(0);
  });

  it('a byte-order mark and semicolons with decimal commas are kept', async () => {
    const text = '\uFEFFid;name;form;N;NO3-N;K2O;bulk_density\nkn;Kali;powder;13,5;13,5;46;1,05\n';
    const home = folder({ 'shelf.csv': text });
    await velamen([...trial, ...readings], home);
    const now = readFileSync(join(home, 'shelf.csv'), 'utf8');
    expect(now).toMatch(
      /^\uFEFFid;name;form;N;NO3-N;K2O;bulk_density\nkn;Kali;powder;13,5;13,5;46;\d,\d+ \+\/- \d,\d+\n$/,
    );
    expect(now).not.toBe(text);
  });

  it('a column that is not there yet is added to every row', () => {
    const text = 'id,form,K2O\n# two\na,powder,20\n\nb,powder,"30"\n';
    expect(withCell(text, 'b', 'bulk_density', '0.9')).toBe(
      'id,form,K2O,bulk_density\n# two\na,powder,20,\n\nb,powder,"30",0.9\n',
    );
  });

  it.each([
    ['no such row', 'id,form,bulk_density\na,powder,1\n', 'b'],
    ['two rows of the name', 'id,form,bulk_density\na,powder,1\na,powder,2\n', 'a'],
    ['two columns', 'id,bulk_density,bulk density\na,1,2\n', 'a'],
    ['a quote that never closes', 'id,bulk_density\n"a,1\n', 'a'],
    ['text after a quote', 'id,bulk_density\n"a"b,1\n', 'a'],
  ])('changes nothing where it cannot be certain: %s', (_, text, id) => {
    expect(withCell(text, id, 'bulk_density', '0.9')).toBeNull();
  });

  it('a file that may not be written to is left alone', async () => {
    const home = folder({ 'shelf.csv': SHELF });
    chmodSync(home, 0o555);
    const ran = await velamen([...trial, ...readings], home);
    chmodSync(home, 0o755);
    expect(ran.exit).toBe(2);
    expect(readFileSync(join(home, 'shelf.csv'), 'utf8')).toBe(SHELF);
    expect(readdirSync(home)).toEqual(['shelf.csv']);
  });
});
