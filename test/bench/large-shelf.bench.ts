/**
 * Large shelves as a person waits for them: whole cold processes of the built command line on 100, 300, 1,000 and 5,000 distinct invented
 * products. `npm run bench` prints clock, processor time and the most memory of `labels` and of `blend`; the two shelves beside which what
 * it costs to insist is told by default and is not, in pairs.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { bench, describe } from 'vitest';
import { inventedShelf } from './invented-shelf.js';

const root = join(import.meta.dirname, '../..');
const home = mkdtempSync(join(tmpdir(), 'velamen-large-'));
const dist = join(home, 'dist');
execFileSync(process.execPath, ['build.mjs', '--no-types', '--to', dist], { cwd: root });

const SIZES = [100, 300, 1000, 5000] as const;
const shelfOf = (size: number): string => join(home, `${size}.csv`);
for (const size of SIZES) writeFileSync(shelfOf(size), inventedShelf(size));

const COMMANDS = {
  labels: [],
  blend: ['--plants', 'moth-orchid', '--medium', 'bark', '--phase', 'growth', '--water', 'rain'],
};

interface Took {
  seconds: number;
  cpuSeconds: number;
  megabytes: number;
}

const TELL = `data:text/javascript,${encodeURIComponent(
  "import { writeSync } from 'node:fs'; process.on('exit', () => { const { userCPUTime, systemCPUTime, maxRSS } = process.resourceUsage(); writeSync(2, 'TOOK ' + (userCPUTime + systemCPUTime) / 1e6 + ' ' + maxRSS / 1024); });",
)}`;

function run(command: keyof typeof COMMANDS, size: number): Took {
  const start = performance.now();
  const argv = ['--import', TELL, join(dist, 'cli.js'), command, '--shelf', shelfOf(size), ...COMMANDS[command]];
  const { stderr, status } = spawnSync(process.execPath, argv, { cwd: home, encoding: 'utf8', maxBuffer: 1e9 });
  const seconds = (performance.now() - start) / 1000;
  const [, cpu, megabytes] = /TOOK ([\d.]+) ([\d.]+)$/.exec(stderr) ?? [];
  if (status !== 0 || cpu === undefined)
    throw new Error(`velamen ${command} of ${size} ended with ${status}: ${stderr}`);
  return { seconds, cpuSeconds: Number(cpu), megabytes: Number(megabytes) };
}

for (const size of SIZES) {
  for (const command of ['labels', 'blend'] as const) {
    const { seconds, cpuSeconds, megabytes } = run(command, size);
    console.log(
      `velamen ${command}, ${size} products: ${seconds.toFixed(1)} s, processor ${cpuSeconds.toFixed(1)} s, ${megabytes.toFixed(0)} MB`,
    );
  }
}

const PAIRS = 5;
const ratios = Array.from({ length: PAIRS }, (_, i) => {
  if (i % 2 === 0) return run('blend', 100).cpuSeconds / run('blend', 300).cpuSeconds;
  const large = run('blend', 300).cpuSeconds;
  return run('blend', 100).cpuSeconds / large;
}).sort((a, b) => a - b);
console.log(`${PAIRS} pairs, blend of 100 beside 300 products: ${ratios[PAIRS >> 1]!.toFixed(2)} × in the median`);

describe('whole cold processes on large shelves', () => {
  bench('labels of 100 products', () => void run('labels', 100), { iterations: 3, time: 0 });
  bench('blend of 100 products', () => void run('blend', 100), { iterations: 3, time: 0 });
});
