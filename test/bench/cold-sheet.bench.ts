/**
 * The mixing sheet of a six-item feed as a person waits for it: whole cold processes of the built command line, each paired with one that
 * does the start-up and reads the same shelf and bench (`labels`). What the sheet takes beyond that is to stay within 300 ms; `npm run bench`
 * prints it. Least is what the work takes, median what a machine with other work to do makes of it.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { SIX_ITEMS } from '../page/six-items.js';

const root = join(import.meta.dirname, '../..');
execFileSync(process.execPath, ['build.mjs', '--no-types'], { cwd: root });
const home = mkdtempSync(join(tmpdir(), 'velamen-cold-'));
for (const [name, text] of Object.entries(SIX_ITEMS)) writeFileSync(join(home, name), text);

/** What a process took: the clock, and its processor time, which other work on the machine lengthens less. */
interface Took {
  wall: number;
  cpu: number;
}

const TELL_CPU = `data:text/javascript,${encodeURIComponent(
  "import { writeSync } from 'node:fs'; process.on('exit', () => { const { user, system } = process.cpuUsage(); writeSync(2, 'CPU ' + (user + system) / 1000); });",
)}`;

function run(command: 'labels' | 'sheet'): Took {
  const start = performance.now();
  const { stderr, status } = spawnSync(process.execPath, ['--import', TELL_CPU, join(root, 'dist/cli.js'), command], {
    cwd: home,
    encoding: 'utf8',
  });
  const wall = performance.now() - start;
  const cpu = Number(/CPU ([\d.]+)$/.exec(stderr)?.[1]);
  if (status !== 0 || !(cpu > 0)) throw new Error(`velamen ${command} ended with ${status}: ${stderr}`);
  return { wall, cpu };
}

const PAIRS = 15;
const pairs = Array.from({ length: PAIRS }, (_, i): { labels: Took; sheet: Took } => {
  // now the one first, now the other, so that a machine that slows down favours neither
  if (i % 2 === 0) return { labels: run('labels'), sheet: run('sheet') };
  const sheet = run('sheet');
  return { labels: run('labels'), sheet };
});
const least = (values: readonly number[]): number => Math.min(...values);
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[PAIRS >> 1]!;
for (const [what, of] of [
  ['clock', ({ wall }: Took) => wall],
  ['processor', ({ cpu }: Took) => cpu],
] as const) {
  const [labels, sheet] = [pairs.map((pair) => of(pair.labels)), pairs.map((pair) => of(pair.sheet))];
  const beyond = [least(sheet) - least(labels), median(pairs.map((pair) => of(pair.sheet) - of(pair.labels)))];
  const both = (values: readonly number[]): string => `${least(values).toFixed(0)}/${median(values).toFixed(0)}`;
  console.log(
    `${PAIRS} pairs of cold processes, ${what}, least/median ms: labels ${both(labels)}, sheet of six items ${both(sheet)}; ` +
      `beyond start-up ${beyond.map((ms) => ms.toFixed(0)).join('/')}`,
  );
}

describe('whole cold processes', () => {
  bench('labels: start-up and reading the bench', () => void run('labels'), { iterations: 3, time: 0 });
  bench('sheet of six items', () => void run('sheet'), { iterations: 3, time: 0 });
});
