import { execFileSync, spawnSync } from 'node:child_process';
import { chmodSync } from 'node:fs';
import { join } from 'node:path';
import { describe, expect, it } from 'vitest';
import { completions } from '../../src/cli/complete.js';
import { folder, velamen } from './world.js';

const root = join(import.meta.dirname, '../..');

/** The words that a shell is told when the tab key is pressed at the end of these. */
async function asked(line: string[], cwd = root, env: Record<string, string> = {}): Promise<string[]> {
  const ran = await velamen(['--get-yargs-completions', 'velamen', ...line], cwd, { env });
  expect(ran).toMatchObject({ exit: 0, stderr: '' });
  return ran.stdout.split('\n').filter((word) => word !== '');
}

describe('completion', () => {
  it('offers the views of the journal where one is due', async () => {
    expect(await asked(['journal', ''])).toEqual(expect.arrayContaining(['add', 'undo', 'show', 'stock', 'cost']));
    expect((await asked(['journal', 'st'])).filter((word) => !word.startsWith('-'))).toEqual(['stock']);
    expect(await asked(['journal', 'show', ''])).not.toContain('stock');
  });

  it('offers every command', async () => {
    expect(await asked([''])).toEqual([
      'start',
      'check',
      'labels',
      'blend',
      'reach',
      'buy',
      'assess',
      'sheet',
      'meter',
      'concentrate',
      'season',
      'page',
      'journal',
      'schema',
      'completion',
    ]);
  });

  it('offers the options of a command that are not given yet, by the table', async () => {
    const offered = await asked(['sheet', '--json', '--']);
    expect(offered).toEqual(expect.arrayContaining(['--mix', '--jug-label', '--to', '--help']));
    for (const other of ['--json', '--brim', '--can', '--ratio']) expect(offered).not.toContain(other);
  });

  it.each([
    ['--plants', ['phalaenopsis', 'pleurothallid']],
    ['--medium', ['sphagnum', 'bark', 'mounted']],
    ['--phase', ['growth', 'bloom', 'rest']],
    ['--water', ['rain', 'hard-tap']],
    ['--with', ['calcium-nitrate', 'sample-base']],
  ])('offers what may stand after %s', async (option, words) => {
    expect(await asked(['blend', option, ''])).toEqual(expect.arrayContaining(words));
  });

  it('offers the feeds of the bench that is named, or of the folder', async () => {
    const bench = 'examples/what-to-buy';
    expect(await asked(['blend', '--bench', bench, '--feed', ''])).toEqual(['moss', 'bark']);
    expect(await asked(['blend', '--feed', 'b'], join(root, bench))).toEqual(['bark']);
    expect(await asked(['blend', '--feed', ''], folder({ 'bench.yaml': 'feeds: [' }))).not.toContain('moss');
  });

  it('offers nothing where a file or an amount is to come, so that the shell offers its files', async () => {
    for (const option of ['--shelf', '--to', '--mix', '--rule']) expect(await asked(['blend', option, ''])).toEqual([]);
  });

  it('tells zsh what each word means', async () => {
    const io = { cwd: root, env: { SHELL: 'zsh' } } as unknown as Parameters<typeof completions>[1];
    const offered = await completions(['velamen', 'meter', '--'], io);
    expect(offered).toContain('--brim:what the can holds to the brim');
    const script = (await velamen(['completion', 'zsh'], root)).stdout;
    expect(script).toMatch(/^#compdef velamen\n/);
    expect(script).toContain('SHELL=zsh velamen --get-yargs-completions');
  });

  it('refuses another shell', async () => {
    const ran = await velamen(['completion', 'fsh'], root);
    expect(ran).toMatchObject({ exit: 2, stdout: '' });
    expect(ran.stderr).toContain('expected bash or zsh');
  });

  it.runIf(spawnSync('bash', ['--version']).status === 0)('is a script by which bash completes', async () => {
    const { stdout: script } = await velamen(['completion', 'bash'], root);
    // stands in for the program: says which words it was asked about
    const home = folder({ velamen: '#!/bin/sh\n[ "$SHELL" = bash ] && printf "%s\\n" blend buy "$4"\n', script });
    chmodSync(join(home, 'velamen'), 0o755);
    const press = [
      'source ./script',
      'COMP_WORDS=(velamen b); COMP_CWORD=1',
      '_velamen_yargs_completions',
      'declare -p COMPREPLY',
    ].join('\n');
    const env = { ...process.env, PATH: `${home}:${process.env.PATH}` };
    expect(execFileSync('bash', ['-c', press], { cwd: home, env, encoding: 'utf8' })).toBe(
      'declare -a COMPREPLY=([0]="blend" [1]="buy")\n',
    );
  });
});
