import { execFileSync, spawnSync } from 'node:child_process';
import { existsSync, readdirSync, readFileSync, rmSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { build } from 'esbuild';
import type { Browser } from 'playwright-core';
import { publint } from 'publint';
import { afterAll, beforeAll, describe, expect, it } from 'vitest';
import { shellWords } from '../golden/golden.js';
import { launch, withoutBrowser } from '../page/browser.js';
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
    for (const name of [
      '@stdlib/math-base-special-exp',
      'highs',
      'javascript-lp-solver',
      'mathjs',
      'yaml',
      'csv-parse',
      'zod',
      'yargs',
      'yargs-parser',
      'preact',
      'idb',
      'fflate',
    ])
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

  it('writes the page into a file, and never over one that is not its own', () => {
    const cli = inside('dist/cli.js');
    expect(node([cli, 'page', '--to', 'velamen.html'], home)).toBe(
      'The page is in velamen.html: open it in a browser.\n',
    );
    const written = readFileSync(join(home, 'velamen.html'), 'utf8');
    expect(written).toBe(`${readFileSync(inside('dist/page.html'), 'utf8')}<!-- written by velamen -->\n`);
    expect(written.length).toBeLessThan(7_000_000);
    expect(node([cli, 'page', '--to', 'velamen.html'], home)).toContain('velamen.html');
    writeFileSync(join(home, 'own.html'), 'mine');
    expect(() => node([cli, 'page', '--to', 'own.html'], home)).toThrow(/a file that velamen did not write/);
    expect(() => node([cli, 'page'], home)).toThrow(/no file to write the page into/);
    expect(readFileSync(join(home, 'own.html'), 'utf8')).toBe('mine');
    // nothing is there that could show it
    const opening = spawnSync(process.execPath, [cli, 'page', '--to', 'velamen.html', '--open'], {
      cwd: home,
      encoding: 'utf8',
      env: { PATH: home },
    });
    expect([opening.status, opening.stderr]).toEqual([0, expect.stringContaining('Open velamen.html yourself.')]);
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
const { results }: velamen.Answers<velamen.Results['blend']> = await velamen.blendFeeds({}, { mix: '4 L', atMost: '2' });
// @ts-expect-error: a wish that nobody knows
await velamen.blendFeeds({}, { atLeast: '2' });
// @ts-expect-error: a sheet is no blend
velamen.reportOf('sheet', results[0]!);
export const names: string[] = [verdict.verdict, velamen.reportOf('blend', results[0]!).title];
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

describe('a script of a library user', () => {
  const readme = readFileSync(join(root, 'README.md'), 'utf8');
  const [, line, script] = /<!-- script: prints what `velamen ([^`]+)` prints -->\n```js\n([\s\S]*?)```/.exec(readme)!;

  it('stands in the README, prints what the command prints, and is short', () => {
    writeFileSync(join(home, 'sheet.mjs'), script!);
    const printed = node([inside('dist/cli.js'), ...shellWords(line!)], root);
    expect(printed).toContain('Mix in this order');
    expect(node(['sheet.mjs'], home)).toBe(printed);
    expect(script!.split('\n').length).toBeLessThanOrEqual(30);
  });
});

describe.skipIf(withoutBrowser())('the package in a browser', () => {
  let browser: Browser;
  beforeAll(async () => {
    browser = await launch();
  });
  afterAll(() => browser?.close());

  /** A script bundled as a page would have it, from the installed package; what it leaves in `answer`. */
  async function inPage(script: string): Promise<string> {
    writeFileSync(join(home, 'page.mjs'), script);
    const { outputFiles } = await build({
      entryPoints: [join(home, 'page.mjs')],
      absWorkingDir: home,
      bundle: true,
      platform: 'browser',
      format: 'iife',
      write: false,
      logLevel: 'error',
    });
    const code = outputFiles[0]!.text;
    const page = await browser.newPage();
    const asked: string[] = [];
    page.on('request', (request) => asked.push(request.url()));
    await page.setContent(`<script>${code.replaceAll('</script', '<\\/script')}</script>`);
    const answer = (await page.evaluate('answer')) as string;
    expect(asked.filter((url) => !/^(about|data|blob):/.test(url))).toEqual([]);
    await page.close();
    return answer;
  }

  /** The texts of an example as the command line names them. */
  const textsOf = (example: string) =>
    JSON.stringify(
      Object.fromEntries(
        ['bench', 'shelf'].map((key) => {
          const name = `examples/${example}/${key === 'bench' ? 'bench.yaml' : 'shelf.csv'}`;
          return [key, { name, text: readFileSync(join(root, name), 'utf8') }];
        }),
      ),
    );

  it.each([
    ['blend', 'moss-without-ammonium', 'blendFeeds', {}, []],
    [
      'blend',
      'what-the-shelf-reaches',
      'blendFeeds',
      { feed: 'cattleyas', closest: true },
      ['--feed', 'cattleyas', '--closest'],
    ],
    ['sheet', 'moss-without-ammonium', 'mixingSheets', {}, []],
  ] as const)(
    '%s of %s: from its texts what the command line prints, byte for byte',
    async (command, example, asked, wishes, argv) => {
      const answer = await inPage(`import { ${asked}, jsonOf, jsonText } from 'velamen';
      globalThis.answer = ${asked}(${textsOf(example)}, ${JSON.stringify(wishes)}).then(({ results: [result] }) =>
        jsonText(jsonOf('${command}', result)));`);
      const line = [inside('dist/cli.js'), command, '--bench', `examples/${example}`, '--json', ...argv];
      expect(answer).toBe(node(line, root));
    },
  );

  it('solves whole numbers, by the engine that is inside', async () => {
    const program = {
      columns: [{ id: 'a', cost: 2, integer: true }],
      rows: [{ id: 'r', lower: 2.5, terms: { a: 1 } }],
    };
    const answer = await inPage(`import { solve } from 'velamen/solver';
      globalThis.answer = solve(${JSON.stringify(program)}).then(JSON.stringify);`);
    expect(JSON.parse(answer)).toMatchObject({ verdict: 'optimal', objective: 6, x: { a: 3 }, engine: 'highs' });
  });
});
