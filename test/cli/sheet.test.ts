import { existsSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { fileURLToPath } from 'node:url';
import { describe, expect, it } from 'vitest';
import { sheetShape } from '../../src/report/sheet-shapes.js';
import { SIX_ITEMS } from '../page/six-items.js';
import { folder, velamen } from './world.js';

const MOSS = ['sheet', '--bench', fileURLToPath(new URL('../../examples/moss-without-ammonium', import.meta.url))];

describe('sheet', () => {
  it('prints JSON of its published shape, every reading between its ends', async () => {
    const ran = await velamen([...MOSS, '--json', '--date', '2026-11-25', '--temperature', '18 °C'], folder());
    expect(ran.exit).toBe(0);
    const sheet = sheetShape.parse(JSON.parse(ran.stdout));
    expect(sheet).toMatchObject({ schema: 'velamen.sheet/1', status: 'kept', date: '2026-11-25', litres: 4, pen: 500 });
    for (const { reading, grams, measures } of sheet.steps) {
      expect(grams).toBeGreaterThan(0);
      expect(measures[0]!.keeps).toBe(true);
      expect(reading.low).toBeLessThan(reading.mSPerCm);
      expect(reading.high).toBeGreaterThan(reading.mSPerCm);
      expect(reading.pen).toBeCloseTo(500 * reading.mSPerCm, 6);
    }
    // while things go in, each reading is above the one before
    const readings = sheet.steps.map((step) => step.reading.mSPerCm);
    expect(readings).toEqual([...readings].sort((a, b) => a - b));
    expect(sheet.end.atTemperature).toMatchObject({ celsius: 18 });
    expect(sheet.end.atTemperature!.mSPerCm).toBeLessThan(sheet.end.reading.mSPerCm);
  });

  it('all its forms say the same', async () => {
    const home = folder(SIX_ITEMS);
    const text = await velamen(['sheet', '--to', 'a.html', '--to', 'a.csv'], home);
    await velamen(['sheet', '--jug-label', '--to', 'a.txt'], home);
    const json = sheetShape.parse(JSON.parse((await velamen(['sheet', '--json'], home)).stdout));
    const read = (name: string): string => readFileSync(join(home, name), 'utf8');
    const [html, csv, label] = [read('a.html'), read('a.csv'), read('a.txt')];
    expect(json.steps).toHaveLength(6);
    for (const step of json.steps) {
      const { words } = step.measures[0]!;
      expect(text.stdout).toContain(`${words}: ${step.name}`.slice(0, 30));
      expect(html).toContain(`<b class="amount">${words}</b>`);
      expect(csv).toContain(words);
      expect(label.replace(/\s*\|\n\| /g, ' ')).toContain(words);
      for (const form of [text.stdout, html]) expect(form).toContain(String(Math.round(step.reading.pen!)));
    }
    expect(html).not.toContain('Iron <b>');
    expect(html).toContain('Iron &lt;b&gt;chelate&lt;/b&gt; &amp; &quot;traces&quot;');
    expect(text.stdout.split('\n').every((line) => line.length <= 80)).toBe(true);
    expect(label.split('\n').every((line) => line.length <= 60)).toBe(true);
    expect(label).toContain('NOT FOR DRINKING');
  });

  it('a label can be a page', async () => {
    const home = folder();
    await velamen([...MOSS, '--jug-label', '--to', 'jug.html'], home);
    const page = readFileSync(join(home, 'jug.html'), 'utf8');
    expect(page).toMatch(/^<!doctype html>/);
    expect(page).toContain('NOT FOR DRINKING');
  });

  it('another can changes the doses, and says which gallon', async () => {
    const { stdout } = await velamen([...MOSS, '--mix', '1 US gal', '--json'], folder());
    expect(sheetShape.parse(JSON.parse(stdout)).litres).toBeCloseTo(3.785411784, 9);
    const text = await velamen([...MOSS, '--mix', '1 imperial gal'], folder());
    expect(text.stdout).toMatch(/1 imperial gal \(4\.55 L\) = 1\.2 US gallons \(3\.785 L each\)/);
  });

  it.each([
    ['10 ppm', 0.02],
    ['20 µS/cm', 0.02],
    ['0.02', 0.02],
    ['0,05 mS/cm', 0.05],
  ])('--reading-of-water "%s"', async (text, mSPerCm) => {
    const { stdout, exit } = await velamen([...MOSS, '--reading-of-water', text, '--json'], folder());
    expect(exit).toBe(0);
    const { water } = sheetShape.parse(JSON.parse(stdout));
    expect(water).toMatchObject({ measured: true });
    expect(water.reading.mSPerCm).toBeCloseTo(mSPerCm, 9);
  });

  it('says which bands coarse tools miss and what would do, and exits with 3', async () => {
    const bench = SIX_ITEMS['bench.yaml'].replace(/kit: .*/, 'kit: { scale: 5 g, syringe: 10 mL }');
    const home = folder({ ...SIX_ITEMS, 'bench.yaml': bench.replace('8 L', '2 L') });
    const ran = await velamen(['sheet', '--by', 'measure'], home);
    const label = await velamen(['sheet', '--by', 'measure', '--jug-label'], home);
    expect([ran.exit, label.exit]).toEqual([3, 3]);
    // unasked the pen of the bench does what these tools cannot
    expect((await velamen(['sheet'], home)).exit).toBe(0);
    expect(ran.stdout).toContain('NOT EVERY LIMIT IS KEPT');
    expect(ran.stdout).toMatch(/too (little|much)/);
    expect(ran.stdout).toContain('A way out:');
    expect(label.stdout).toContain('DOES NOT KEEP EVERY LIMIT');
  });

  it('takes what is too little for the spoons from stock bottles, says so in its first line, and tells what else would do with --full', async () => {
    const kitchen = folder({
      ...SILL,
      'bench.yaml': sill('{ spoons: [5 mL, 2.5 mL, 1.25 mL], dropper: 20 drops/mL }'),
    });
    const ran = await velamen(['sheet', '--full'], kitchen);
    expect(ran.exit).toBe(0);
    const [top = '', rest = ''] = ran.stdout.replace(/\n\s*/g, ' ').split('Plants');
    expect(top).toMatch(
      /Stock bottles? of .*: .* per can.*Your kit alone cannot measure .*: \d+ of 100 cans would keep/,
    );
    expect(rest).toContain('First, once: a stock bottle of');
    expect(rest).toMatch(/Other ways out - /);
  });

  it('says on top, and by its exit code, what the kit has nothing for', async () => {
    const home = folder({
      ...SILL,
      'bench.yaml': sill('{ spoons: [1/4 tsp, 1/8 tsp, 1/16 tsp, 1/32 tsp, 1/64 tsp], dropper: 20 drops/mL }'),
      'shelf.csv': SILL['shelf.csv'].replace(
        'Lime nitre,powder,,15.5,14.4,1.1,26.5,,,1.0',
        'Lime nitre,powder,,15.5,14.4,1.1,26.5,,,',
      ),
    });
    const ran = await velamen(['sheet'], home);
    expect(ran.exit).toBe(3);
    expect(ran.stdout).toMatch(/^sill: mixing sheet\n\nYOUR KIT CANNOT MEASURE Lime nitre: borrow a scale/);
    expect(ran.stdout).toContain('on a borrowed scale');
    // of what spoons measure no weight is offered for a scale that is not there
    const json = sheetShape.parse(JSON.parse((await velamen(['sheet', '--json'], home)).stdout));
    const tools = json.steps.filter((step) => !step.borrowed).flatMap((step) => step.measures.map((m) => m.tool));
    expect(new Set(tools)).not.toContain('scale');
    expect(json.steps.find((step) => step.borrowed)).toMatchObject({ id: 'calnit' });
  });

  it('offers no measure that the kit’s own scale cannot show, and names several spoons', async () => {
    const home = folder({
      ...SILL,
      'bench.yaml': sill('{ spoons: [1 dash, 1 smidgen], scale: 1 g, syringe: 1 mL }').replace('1 L', '20 L'),
    });
    const { steps } = sheetShape.parse(JSON.parse((await velamen(['sheet', '--json'], home)).stdout));
    const words = steps.flatMap((step) => step.measures.map((m) => m.words));
    expect(words.filter((w) => / g$/.test(w) && !/^\d+ g$/.test(w))).toEqual([]);
    expect(words.join(' ')).not.toMatch(/[2-9] level (dash|smidgen)(?!e?s)/);
  });

  it('a shelf without a feed gets no sheet of plain water unawares', async () => {
    const home = folder({
      'bench.yaml': sill('{ scale: 0.01 g }'),
      'shelf.csv': 'id,form,N,Na\nsalt,powder,0,39\n',
    });
    const ran = await velamen(['sheet'], home);
    expect(ran.exit).toBe(3);
    expect(ran.stdout).toMatch(/^sill: no mixing sheet\n\nNOTHING TO MIX: no feed from this shelf keeps every limit/);
    expect(ran.stdout).not.toContain('iron chelate');
  });

  it('counts steps as meter does, in text and in CSV', async () => {
    const home = folder(SIX_ITEMS);
    const { stdout } = await velamen(['sheet', '--to', 'a.csv'], home);
    const csv = readFileSync(join(home, 'a.csv'), 'utf8');
    for (const name of ['Calcium nitrate', 'Potassium nitrate']) {
      const [, step] = new RegExp(`\\[ \\] (\\d+)  [^\\n]*${name}`).exec(stdout)!;
      expect(csv).toMatch(new RegExp(`^${step},[^,]*,[^,]*${name}`, 'm'));
    }
    expect(csv).toMatch(/^1,,/m);
  });

  it.each([
    [['--date', '2026-02-30'], 'a day as YEAR-MONTH-DAY'],
    [['--date', 'tomorrow'], 'a day as YEAR-MONTH-DAY'],
    [['--mix', '1 gal'], 'US gal or imperial gal'],
    [['--mix', '3 g'], 'a volume from 100 mL to 30000 L'],
    [['--reading-of-water', '4'], 'a reading from 0 to 3 mS/cm'],
    [['--reading-of-water', 'low'], 'a reading from 0 to 3 mS/cm'],
    [['--paper', 'a5', '--html'], 'a4, letter, a6'],
    [['--paper', 'a4'], 'a page or a PDF with it'],
    [['--sure', '90'], 'Write "90 %" if you mean percent.'],
    [['--to', 'no/such/folder.html'], 'a folder that is not there'],
    [['--feed', 'mosss'], 'Did you mean moss?'],
    [['--to'], '--to FILE'],
  ])('refuses %j', async (more, said) => {
    const { exit, stderr } = await velamen([...MOSS, ...more], folder());
    expect(exit).toBe(2);
    expect(stderr.replace(/\s+/g, ' ')).toContain(said);
  });

  it('asks for a can where the feed names no batch, and for one feed in JSON', async () => {
    const home = folder({ 'shelf.csv': SIX_ITEMS['shelf.csv'] });
    const bare = await velamen(['sheet', '--plants', 'phalaenopsis', '--medium', 'bark', '--shelf', 'shelf.csv'], home);
    expect(bare.exit).toBe(2);
    expect(bare.stderr).toContain('--mix');
    const two = fileURLToPath(new URL('../../examples/what-to-buy', import.meta.url));
    const many = await velamen(['sheet', '--bench', two, '--json'], home);
    expect(many.exit).toBe(2);
    expect(many.stderr).toContain('one feed for --json');
  });

  it('a ppm reading needs a pen whose scale is known', async () => {
    const bench = SIX_ITEMS['bench.yaml'].replace(/pen: .*\n/, 'pen: EC\n');
    const home = folder({ ...SIX_ITEMS, 'bench.yaml': bench });
    const { exit, stderr } = await velamen(['sheet', '--reading-of-water', '10 ppm'], home);
    expect(exit).toBe(2);
    expect(stderr).toContain('a pen with a ppm scale');
  });

  it('without a browser a PDF is refused in plain words, and nothing is written', async () => {
    const home = folder();
    const env = { NO_COLOR: '1', PATH: home };
    const { exit, stderr, stdout } = await velamen([...MOSS, '--to', 'a.pdf'], home, { env });
    expect(exit).toBe(2);
    expect(stderr).toContain('no browser on this machine');
    expect(stdout).toBe('');
    expect(existsSync(join(home, 'a.pdf'))).toBe(false);
    expect((await velamen([...MOSS, '--to', 'a.pdf'], home, { env: { CHROME_PATH: '/no/such' } })).exit).toBe(2);
  });
});

/** A window sill: four powders and a bottle. Names and figures invented. */
const SILL = {
  'shelf.csv': [
    'id,name,form,formula,N,NO3-N,NH4-N,CaO,K2O,P2O5,bulk_density,basis,Fe,Mn,Zn,Cu,B,Mo',
    'calnit,Lime nitre,powder,,15.5,14.4,1.1,26.5,,,1.0,w/w,,,,,,',
    'kno3,Nitre,powder,KNO3,,,,,,,1.1,w/w,,,,,,',
    'mkp,Phosphate,powder,KH2PO4,,,,,,,1.1,w/w,,,,,,',
    'epsom,Bitter salt,powder,MgSO4·7H2O,,,,,,,1.0,w/w,,,,,,',
    'trace,Trace,liquid,,0,,,,,,,w/v,0.15,0.058,0.021,0.006,0.02,0.0023',
    '',
  ].join('\n'),
};
const sill = (kit: string): string =>
  `name: Sill\nwater: rain\nkit: ${kit}\nfeeds:\n  sill: { plants: phalaenopsis, medium: bark, strength: 50 %, batch: 1 L }\n`;
