import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { PassThrough } from 'node:stream';
import { describe, expect, it } from 'vitest';
import { parse } from 'yaml';
import { personAt } from '../../src/cli/terminal.js';
import { folder, velamen } from './world.js';

/** Someone at a terminal who answers so, and leaves after the last answer; what they were asked. */
function person(answers: readonly string[]) {
  const left = [...answers];
  const questions: string[] = [];
  const ask = async (text: string): Promise<string | null> => {
    questions.push(text.replace(/\s+/g, ' ').trim());
    return left.shift() ?? null;
  };
  return { ask, questions, left };
}

const bench = (home: string): Record<string, unknown> =>
  parse(readFileSync(join(home, 'mine/bench.yaml'), 'utf8')) as never;

describe('start in a terminal', () => {
  it('asks what matters and nothing else, tells what is wrong with an answer, and asks again', async () => {
    const home = folder();
    const { ask, questions, left } = person([
      'Grey Heron 13-3-15\nTotal Nitrogen 13%\nAvailable Phosphate 3%\nSoluble Potash 15%',
      'what the cat brought in',
      'Liquid plant food\nTotal Nitrogen 3%\nSoluble Potash 4%',
      'heavy',
      '9.2 lb/gal',
      'calcium nitrate',
      'calcium-ammonium-nitrate',
      '',
      'moth orchyds in bark',
      'deciduous orchid',
      'bark',
      '1 gal',
      'ladle',
      '1 tsp, 1/4 tsp',
      'us',
      'ppm',
      'ppm (500)',
      '160',
    ]);
    const ran = await velamen(['start', 'mine', '--phase', 'rest'], home, { ask, isTTY: true });
    expect(ran.exit, ran.stderr).toBe(0);
    expect(left).toEqual([]);
    expect(questions.map((text) => text.slice(0, 14))).toEqual([
      ...[
        'Your first lab',
        'The next label',
        'The next label',
        'A liquid: does',
        'A liquid: does',
        'The next label',
        'Which one: cal',
      ],
      ...[
        'The next label',
        'Which plants d',
        'Which plants d',
        'In what do the',
        'How much do yo',
        'What do you me',
        'What do you me',
      ],
      ...['Which gallon: ', 'What does your', 'What does your', 'Which water: r'],
    ]);
    for (const word of ['what the cat', '"heavy"', 'moth orchyds', 'ladle', '"ppm"'])
      expect(ran.stderr).toContain(word);
    expect(ran.stderr).toMatch(/Soluble Potash 15% +K2O 15 %/);
    // what was shown once is not shown again
    expect(ran.stdout).not.toContain('Soluble Potash 15%');
    expect(bench(home)).toMatchObject({
      ...{ water: { use: 'median-tap' }, kit: { spoons: ['1 tsp', '1/4 tsp'] }, pen: { scale: 500 } },
      feeds: { 'deciduous orchid': { plants: 'deciduous-orchid', medium: 'bark', phase: 'rest', batch: '1 US gal' } },
    });
    const shelf = readFileSync(join(home, 'mine/shelf.csv'), 'utf8');
    for (const row of [/^grey-heron,/m, /^liquid-plant-food,.*,1\.102,/m, /^calcium-ammonium-nitrate,/m])
      expect(shelf).toMatch(row);
  });

  it('takes what options say as said, and empty answers as leave to assume', async () => {
    const home = folder();
    const { ask, questions } = person(['', '', '']);
    const options = [
      '--label',
      '20-20-20',
      '--plants',
      'deciduous orchid in bark',
      '--phase',
      'rest',
      '--kit',
      '1 tsp',
    ];
    const ran = await velamen(['start', 'mine', ...options], home, { ask });
    expect(ran.exit, ran.stderr).toBe(0);
    expect(questions).toHaveLength(3);
    expect(ran.stdout).toContain('No pen is named');
    expect(bench(home)).not.toHaveProperty('pen');
  });

  it('writes nothing where the person leaves, asks nobody where nobody is there or JSON is wanted', async () => {
    const home = folder();
    const { ask, questions } = person(['20-20-20', '']);
    const ran = await velamen(['start', 'mine'], home, { ask });
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr).toContain('Nothing was written.');
    expect(readdirSync(home)).toEqual([]);
    expect(questions).toHaveLength(3);
    expect((await velamen(['start', 'mine'], home)).stderr).toContain('no label');
    expect((await velamen(['start', 'mine', '--json'], home, { ask })).exit).toBe(2);
    expect(questions).toHaveLength(3);
  });

  it('refuses a folder that holds a bench before it asks', async () => {
    const { ask, questions } = person(['20-20-20']);
    expect((await velamen(['start', 'mine'], folder({ 'mine/shelf.csv': '' }), { ask })).exit).toBe(2);
    expect(questions).toEqual([]);
  });
});

describe('a person at a terminal', () => {
  /** What is typed, each as it arrives. */
  function typing() {
    const [input, output] = [new PassThrough(), new PassThrough()];
    return { input, output, person: personAt(input, output) };
  }

  it('is shown the question and answers with a line', async () => {
    const { input, output, person: at } = typing();
    const answer = at.ask('Which?', false);
    input.write('bark\nnext\n');
    expect(await answer).toBe('bark');
    expect(output.read()?.toString()).toContain('Which?> ');
    expect(await at.ask('And?', false)).toBe('next');
    at.giveBack();
  });

  it('pastes a label with empty lines in it as one answer, and types one line by line', async () => {
    const { input, person: at } = typing();
    const pasted = at.ask('Label', true);
    input.write('Feed 5-5-5\n\nTotal Nitrogen 5%\n\n');
    expect(await pasted).toBe('Feed 5-5-5\n\nTotal Nitrogen 5%');
    const typed = at.ask('Label', true);
    input.write('Feed 6-6-6\n');
    await new Promise((done) => setTimeout(done, 100));
    input.write('Nitrogen 6%\n\n');
    expect(await typed).toBe('Feed 6-6-6\nNitrogen 6%');
    const none = at.ask('Label', true);
    input.write('\n');
    expect(await none).toBe('');
    at.giveBack();
  });

  it('is gone where the input ends', async () => {
    const { input, person: at } = typing();
    const answer = at.ask('Which?', false);
    input.end();
    expect(await answer).toBeNull();
  });
});
