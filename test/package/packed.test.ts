import { execFileSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { publint } from 'publint';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { installed, node, root } from './packed.js';

let home: string;
beforeAll(() => {
  home = installed();
});
afterAll(() => rmSync(join(home, '..'), { recursive: true, force: true }));

const inside = (path: string): string => join(home, 'node_modules/velamen', path);

describe('the package from its tarball', () => {
  it('installs alone: what it needs is bundled, and the licences of that are kept', () => {
    expect(readdirSync(join(home, 'node_modules')).filter((name) => !name.startsWith('.'))).toEqual(['velamen']);
    const notices = readFileSync(inside('dist/NOTICES.txt'), 'utf8');
    for (const name of ['highs', 'javascript-lp-solver', 'mathjs', 'yaml', 'csv-parse', 'zod', 'yargs'])
      expect(notices).toMatch(new RegExp(`^${name} \\d`, 'm'));
  });

  it('leads every one of its exports to a file', () => {
    const { exports } = JSON.parse(readFileSync(inside('package.json'), 'utf8'));
    const targets = Object.values(exports).flatMap((entry) =>
      typeof entry === 'string' ? entry : Object.values(entry!),
    );
    expect(targets.length).toBeGreaterThan(4);
    for (const target of targets) expect(existsSync(inside(target as string)), target as string).toBe(true);
  });

  it('gives a checker of packages nothing to say', async () => {
    const { messages } = await publint({ pkgDir: inside(''), pack: false });
    expect(messages).toEqual([]);
  });

  it('runs as a command', () => {
    expect(node([inside('dist/cli.js'), '--version'], home)).toMatch(/^\d+\.\d+\.\d+\n$/);
    expect(readdirSync(join(home, 'node_modules/.bin'))).toContain('velamen');
  });

  it.each(['nodenext', 'bundler'])(
    'has types under %s, without those of Node, a browser or anybody else',
    (resolution) => {
      writeFileSync(
        join(home, 'use.mts'),
        `import * as velamen from 'velamen';
import { solve, type Verdict } from 'velamen/solver';
const verdict: Verdict = await solve({ columns: [{ id: 'a', cost: 1 }], rows: [] });
// @ts-expect-error: a column needs its cost
await solve({ columns: [{ id: 'a' }], rows: [] });
export const names: string[] = [verdict.verdict, ...Object.keys(velamen)];
`,
      );
      const tsc = join(root, 'node_modules/typescript/bin/tsc');
      const how = ['--module', resolution === 'bundler' ? 'esnext' : 'nodenext', '--moduleResolution', resolution];
      const run = () =>
        execFileSync(
          process.execPath,
          [tsc, '--noEmit', '--strict', '--target', 'es2022', '--lib', 'es2023', '--types', '', ...how, 'use.mts'],
          { cwd: home, encoding: 'utf8' },
        );
      expect(run()).toBe('');
    },
  );
});
