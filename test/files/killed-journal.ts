/** `npm run killed`: 300 processes killed at random moments while they add to one journal, and two that add 500 entries each. */
import { mkdtempSync, rmSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { adding, killWhileAdding, readBack } from './kill-journal.js';
import { started } from './started.js';

const home = mkdtempSync(join(tmpdir(), 'velamen-killed-'));
const runs = Number(process.argv[2] ?? 300);
const killed = await killWhileAdding(join(home, 'killed'), runs, 15);
console.log(
  `${runs} killed: ${killed.acknowledged} entries acknowledged, ${killed.lost.length} of them lost, ${killed.entries} there, ${killed.problems.length} lines that cannot be read`,
);
const folder = join(home, 'two');
const adds = await adding(folder, 500);
const both = [started(adds, ['a']), started(adds, ['b'])];
const exits = await Promise.all(both.map(({ ended }) => ended));
const two = readBack(
  folder,
  both.flatMap(({ said }) => said().split('\n').slice(0, -1).map(Number)),
);
console.log(`two processes × 500: ${two.entries} entries, ${two.lost.length} lost, ended with ${exits.join(' and ')}`);
rmSync(home, { recursive: true, force: true });
const whole = killed.lost.length === 0 && killed.problems.length === 0 && killed.acknowledged >= runs;
if (!whole || two.entries !== 1000 || two.lost.length > 0) process.exit(1);
