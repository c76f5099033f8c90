import { execFileSync } from 'node:child_process';
import { existsSync, readFileSync, statSync, writeFileSync, chmodSync, mkdirSync, symlinkSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { COMMANDS } from '../../src/cli/commands.js';
import { SIX_ITEMS } from '../page/six-items.js';
import { folder, velamen } from './world.js';

const read = (home: string, name: string): string => readFileSync(join(home, name), 'utf8');
const CATALOG = ['labels', '--catalog', 'potassium-nitrate'];

/** The shortest question to each command that has a sheet. */
const ASKED: Readonly<Record<string, string[]>> = {
  labels: CATALOG,
  blend: ['blend', '--programmes', '--plants', 'phalaenopsis', '--medium', 'bark'],
  reach: ['reach'],
  buy: ['buy', '--weekly', '1 L', '--weeks', '4'],
  assess: ['assess', '1 g potassium-nitrate in 4 L', '--water', 'rain'],
  sheet: ['sheet'],
  meter: ['meter', '--standard', '1413 µS', '--reads', '1350'],
  concentrate: ['concentrate', '--recipe', '1 g potassium-nitrate in 1 L', '--water', 'rain'],
};

describe('--json, --csv and --html print, in every command', () => {
  it.each(Object.entries(ASKED))('%s', async (name, argv) => {
    expect(COMMANDS.map((command) => command.name)).toContain(name);
    const home = folder(SIX_ITEMS);
    const [json, csv, html, text] = await Promise.all(
      ['--json', '--csv', '--html', '--to=all.txt'].map((form) => velamen([...argv, form], home)),
    );
    expect(new Set([json, csv, html, text].map((ran) => ran!.exit)).size).toBe(1);
    expect(JSON.parse(json!.stdout)).toHaveProperty('schema');
    expect(csv!.stdout).toMatch(/^"?# /);
    expect(html!.stdout).toMatch(/^<!doctype html>/);
    expect(read(home, 'all.txt')).toBe(`${text!.stdout}\n(written by velamen)\n`);
  });
});

describe('--full', () => {
  it('adds to text and page what the first screen leaves out, and says so where it is not asked for', async () => {
    const home = folder(SIX_ITEMS);
    const [brief, full, page] = await Promise.all(
      [[], ['--full', '--to=page.html'], ['--html']].map((words) => velamen(['labels', ...words], home)),
    );
    expect(brief!.stdout).toMatch(/\nMore with --full\.\n$/);
    expect(full!.stdout).toContain('over time');
    expect(brief!.stdout + page!.stdout).not.toContain('over time');
    expect(full!.stdout).not.toContain('--full');
    expect(read(home, 'page.html')).toContain('over time');
  });

  it('changes nothing in JSON and CSV, which always hold everything', async () => {
    const home = folder(SIX_ITEMS);
    for (const form of ['--json', '--csv'])
      expect((await velamen(['labels', form, '--full'], home)).stdout).toBe(
        (await velamen(['labels', form], home)).stdout,
      );
  });
});

describe('--to', () => {
  it('writes each file in the form of its ending, and prints as ever', async () => {
    const home = folder();
    const files = ['a.json', 'a.csv', 'A.HTML', 'a.txt'];
    const ran = await velamen([...CATALOG, '--csv', ...files.flatMap((name) => ['--to', name])], home);
    expect(ran).toMatchObject({ exit: 0, stderr: '' });
    expect(JSON.parse(read(home, 'a.json'))).toMatchObject({ schema: 'velamen.labels/1' });
    expect(read(home, 'a.json')).toBe((await velamen([...CATALOG, '--json'], home)).stdout);
    expect(read(home, 'a.csv')).toBe(`${ran.stdout}\r\n# written by velamen\r\n`);
    expect(read(home, 'A.HTML')).toMatch(/^<!doctype html>[\s\S]*<\/html>\n<!-- written by velamen -->\n$/);
    expect(
      read(home, 'a.txt')
        .split('\n')
        .every((line) => line.length <= 80),
    ).toBe(true);
  });

  it.each(['a.txt', 'a.json', 'a.csv', 'a.html'])('writes over a file of ours: %s', async (name) => {
    const home = folder();
    for (let i = 0; i < 2; i += 1) {
      expect(await velamen([...CATALOG, '--to', name], home)).toMatchObject({ exit: 0, stderr: '' });
    }
  });

  it('never over a file that is not ours, unless --replace says so', async () => {
    const home = folder({ 'a.csv': 'mine\n', 'b.json': '{ "mine": 1 }\n', 'c.html': '' });
    for (const name of ['a.csv', 'b.json', 'c.html']) {
      const before = read(home, name);
      const ran = await velamen([...CATALOG, '--to', 'new.txt', '--to', name], home);
      expect(ran).toMatchObject({ exit: 2, stdout: '' });
      expect(ran.stderr).toContain('a file that velamen did not write');
      expect(read(home, name)).toBe(before);
      expect(existsSync(join(home, 'new.txt'))).toBe(false);
      expect((await velamen([...CATALOG, '--to', name, '--replace'], home)).exit).toBe(0);
      expect(read(home, name)).not.toBe(before);
    }
  });

  it('keeps the rights of a file, and writes through a link to where it leads', async () => {
    const home = folder({ 'kept/a.txt': 'mine' });
    chmodSync(join(home, 'kept/a.txt'), 0o640);
    symlinkSync(join(home, 'kept/a.txt'), join(home, 'link.txt'));
    expect((await velamen([...CATALOG, '--to', 'link.txt', '--replace'], home)).exit).toBe(0);
    expect(read(home, 'kept/a.txt')).toContain('written by velamen');
    expect(statSync(join(home, 'kept/a.txt')).mode & 0o777).toBe(0o640);
  });

  it.each([
    ['shelf.csv', ['reach']],
    ['own/list.csv', ['reach', '--shelf', 'own/list.csv']],
    ['own/list.csv', ['labels', '--shelf', 'own/list.csv']],
  ])('never over %s, which was read, not even with --replace', async (name, argv) => {
    const home = folder({ ...SIX_ITEMS, 'own/list.csv': SIX_ITEMS['shelf.csv'] });
    symlinkSync(join(home, name), join(home, 'other.csv'));
    for (const target of [name, `./${name}`, 'other.csv']) {
      const ran = await velamen([...argv, '--to', target, '--replace'], home);
      expect(ran).toMatchObject({ exit: 2, stdout: '' });
      expect(ran.stderr).toContain('a file that this answer was read from');
    }
    expect(read(home, name)).toBe(SIX_ITEMS['shelf.csv']);
  });

  it.each([
    [['--to', 'a.doc'], 'expected a name that ends in .txt, .json, .csv or .html'],
    [['--to', 'a'], 'expected a name that ends in .txt, .json, .csv or .html'],
    [['--to', 'a.pdf'], 'expected a name that ends in .txt, .json, .csv or .html'],
    [['--to', 'a.svg'], 'expected a name that ends in .txt, .json, .csv or .html'],
    [['--to', 'a.txt', '--to', './a.txt'], 'found "a.txt" and "./a.txt", which are one file'],
    [['--to', 'a.txt', '--to', 'a.txt'], 'found "a.txt" twice'],
    [['--to', 'gone/a.txt'], 'found a folder that is not there'],
    [['--to', 'b.csv/a.txt'], 'found a file where a folder should be'],
    [['--to', 'dir.txt'], 'found a folder of that name'],
    [['--replace'], 'expected --to with it'],
    [['--html', 'a.html'], 'Files are named with --to, by their ending: write --to a.html.'],
    [['--csv=a.csv'], 'Files are named with --to, by their ending: write --to a.csv.'],
  ])('refuses %j', async (argv, said) => {
    const home = folder({ 'b.csv': '' });
    mkdirSync(join(home, 'dir.txt'));
    const ran = await velamen([...CATALOG, ...argv], home);
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr.replace(/\s+/g, ' ').split(said)).toHaveLength(2);
    expect(existsSync(join(home, 'a.txt'))).toBe(false);
  });

  it.runIf(process.platform !== 'win32')('never into a pipe or a device', async () => {
    const home = folder();
    execFileSync('mkfifo', [join(home, 'pipe.txt')]);
    const ran = await velamen([...CATALOG, '--to', 'pipe.txt', '--replace'], home);
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr).toContain('found a pipe or a device');
  });

  it('one feed for a JSON file, and for a drawing', async () => {
    const bench = join(import.meta.dirname, '../../examples/what-the-shelf-reaches');
    const ran = await velamen(['blend', '--bench', bench, '--to', 'a.json'], folder());
    expect(ran.exit).toBe(2);
    expect(ran.stderr).toContain('one feed for --json');
  });

  it('a schema is written as JSON, a label as text or a page', async () => {
    const home = folder(SIX_ITEMS);
    expect((await velamen(['schema', 'blend', '--to', 'blend.json'], home)).exit).toBe(0);
    expect(JSON.parse(read(home, 'blend.json'))).toMatchObject({ $id: expect.stringMatching(/^velamen\.blend\/\d+$/) });
    expect((await velamen(['schema', 'blend', '--to', 'blend.json'], home)).exit).toBe(0);
    expect((await velamen(['sheet', '--jug-label', '--to', 'jug.html'], home)).exit).toBe(0);
    expect(read(home, 'jug.html')).toContain('NOT FOR DRINKING');
    expect((await velamen(['sheet', '--jug-label', '--to', 'jug.csv'], home)).stderr).toContain('.txt, .html or .pdf');
    writeFileSync(join(home, 'jug.html'), read(home, 'jug.html').replace('velamen -->', 'me -->'));
    expect((await velamen(['sheet', '--jug-label', '--to', 'jug.html'], home)).exit).toBe(2);
  });
});

describe('old spellings', () => {
  it.each([
    ['blend', '--volume', '4 L', '--volume is now --mix; write --mix "4 L".'],
    ['reach', '--volume', '4 L', '--volume is now --mix; write --mix "4 L".'],
    ['concentrate', '--volume', '4 L', '--volume is now --mix; write --mix "4 L".'],
    ['sheet', '--can', '8 L', '--can is now --mix; write --mix "8 L".'],
    ['sheet', '--volume', '8 L', '--volume is now --mix; write --mix "8 L".'],
    ['sheet', '--pdf', 'a.pdf', 'write --to a.pdf.'],
    ['sheet', '--label', 'jug.txt', 'write --jug-label --to jug.txt.'],
    ['sheet', '--html', 'a.html', 'write --to a.html.'],
    ['sheet', '--csv', 'a.csv', 'write --to a.csv.'],
    ['blend', '--svg', 'a.svg', 'write --to a.svg.'],
    ['meter', '--can', '5 L', '--can is now --brim; write --brim "5 L".'],
    ['meter', '--volume', '4 L', '--volume is now --measured; write --measured "4 L".'],
    ['meter', '--batch', '4 L', '--batch is now --mix; write --mix "4 L".'],
    ['meter', '--batch', '', '--batch is now --mix; write --mix AMOUNT.'],
  ])('%s %s "%s": %s', async (command, option, value, said) => {
    const ran = await velamen([command, option, ...(value === '' ? [] : [value])], folder(SIX_ITEMS));
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr.replace(/\s+/g, ' ')).toContain(said);
  });

  it('are not offered by help', async () => {
    for (const { name } of COMMANDS) {
      const { stdout } = await velamen([name, '-h'], folder());
      // a label is what start begins with; elsewhere it was the sheet for the jug
      expect(stdout).not.toMatch(name === 'start' ? /--(can|volume|batch|pdf)\b/ : /--(can|volume|batch|label|pdf)\b/);
    }
  });
});
