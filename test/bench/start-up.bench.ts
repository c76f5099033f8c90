/**
 * What a person waits for before the first line: whole cold processes of the built command line, each beside one of bare Node that does
 * nothing, in turn, so that a machine that slows down favours neither. `npm run bench` prints the ratio of each pair's clock: the median of
 * all pairs, and that of the quickest of each.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { inventedShelf } from './invented-shelf.js';

const root = join(import.meta.dirname, '../..');
const folder = mkdtempSync(join(tmpdir(), 'velamen-start-'));
// as installed: without it Node would read every file twice to find out which kind of module it is
writeFileSync(join(folder, 'package.json'), JSON.stringify({ type: 'module' }));
const dist = join(folder, 'dist');
execFileSync(process.execPath, ['build.mjs', '--no-types', '--to', dist], { cwd: root });

const thirty = join(folder, 'thirty.csv');
writeFileSync(thirty, inventedShelf(30));
const shelf = ['--shelf', thirty];
const orchid = [...shelf, '--plants', 'moth-orchid', '--medium', 'bark', '--phase', 'growth', '--water', 'rain'];

const moss = ['--bench', 'examples/moss-without-ammonium'];
const COMMANDS: [argv: string[], pairs: number][] = [
  [['--version'], 15],
  [['-h'], 15],
  [['blend', '-h'], 15],
  [['labels', ...moss], 15],
  [['blend', ...moss], 15],
  [['sheet', ...moss], 15],
  [['meter', ...moss, '--reading', '155 ppm'], 9],
  [['buy', '--bench', 'examples/what-to-buy'], 3],
];

/** Milliseconds from the start of a process to its end. */
function clock(argv: readonly string[]): number {
  const start = performance.now();
  const { status, stderr } = spawnSync(process.execPath, argv, { cwd: root, encoding: 'utf8' });
  const wall = performance.now() - start;
  if (status !== 0) throw new Error(`${argv.join(' ')} ended with ${status}: ${stderr}`);
  return wall;
}

const velamen = (argv: readonly string[]): number => clock([join(dist, 'cli.js'), ...argv]);
const bare = (): number => clock(['--eval', '0']);
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

for (const [argv, count] of COMMANDS) {
  const pairs = Array.from({ length: count }, (_, i) => {
    if (i % 2 === 0) return { bare: bare(), ours: velamen(argv) };
    const ours = velamen(argv);
    return { bare: bare(), ours };
  });
  const least = (of: 'bare' | 'ours'): number => Math.min(...pairs.map((pair) => pair[of]));
  const ratio = median(pairs.map((pair) => pair.ours / pair.bare));
  console.log(
    `${count} pairs of cold processes, velamen ${argv.filter((word) => !/^(examples\/|--bench)/.test(word)).join(' ')}: ` +
      `${ratio.toFixed(1)} × bare Node in the median; quickest ${least('ours').toFixed(0)} and ${least('bare').toFixed(0)} ms, ` +
      `${(least('ours') / least('bare')).toFixed(1)} ×`,
  );
}

// near, sure and as doses: what a feed from thirty products takes beyond reading their labels
const beyond = Array.from({ length: 15 }, (_, i) => {
  if (i % 2 === 0) return -velamen(['labels', ...shelf]) + velamen(['blend', ...orchid]);
  return velamen(['blend', ...orchid]) - velamen(['labels', ...shelf]);
});
console.log(
  `${beyond.length} pairs of cold processes, blend of 30 products beyond labels of the same: ${median(beyond).toFixed(0)} ms in the median, ` +
    `quickest ${Math.min(...beyond).toFixed(0)} ms`,
);

describe('whole cold processes', () => {
  bench('bare Node', () => void bare(), { iterations: 3, time: 0 });
  bench('velamen --version', () => void velamen(['--version']), { iterations: 3, time: 0 });
});
