import { spawnSync } from 'node:child_process';
import { resolve } from 'node:path';
import { parseArgs } from 'node:util';
import { caseOf } from './case.js';

import { examined, type Finding, inProcess, type Runner } from './examine.js';
import { hardCase } from './hard.js';

/** `npm run abuse -- --cases 10000 --processes 500`, or one case: `--seed 17 --show`; cases that use over `--slow 5` seconds of the processor are told. */
const { values } = parseArgs({
  options: {
    cases: { type: 'string', default: '10000' },
    processes: { type: 'string', default: '500' },
    from: { type: 'string', default: '1' },
    seed: { type: 'string' },
    show: { type: 'boolean', default: false },
    hard: { type: 'boolean', default: false },
    slow: { type: 'string', default: '5' },
  },
});

const { hard } = values;

/** Tells what the process used of the processor. */
const USED = `data:text/javascript,import { writeSync } from 'node:fs';
process.on('exit', () => { const { user, system } = process.cpuUsage(); writeSync(3, String((user + system) / 1e6)); });`;

/** The built command line, as a grower runs it. */
const asProcess: Runner = async (argv, cwd) => {
  const ran = spawnSync(process.execPath, ['--import', USED, resolve('dist/cli.js'), ...argv], {
    cwd,
    encoding: 'utf8',
    env: { ...process.env, NO_COLOR: '1' },
    stdio: ['pipe', 'pipe', 'pipe', 'pipe'],
    timeout: 120_000,
    maxBuffer: 2 ** 28,
  });
  return { exit: ran.status, stdout: ran.stdout, stderr: ran.stderr, seconds: Number(ran.output[3]) };
};

async function through(seeds: readonly number[], runner: Runner): Promise<Finding[]> {
  const bad: Finding[] = [];
  const exits = new Map<number | null, number>();
  let slowest = 0;
  for (const [i, seed] of seeds.entries()) {
    const found = await examined(hard ? hardCase(seed) : await caseOf(seed), runner);
    if (found.seconds > Number(values.slow))
      console.log(`#${seed} slow: ${found.seconds.toFixed(1)} s\n    ${found.argv.join(' ').slice(0, 200)}`);
    exits.set(found.exit, (exits.get(found.exit) ?? 0) + 1);
    slowest = Math.max(slowest, found.seconds);
    if (found.faults.length > 0) {
      bad.push(found);
      console.log(`#${seed} ${found.faults.join('; ')}\n    ${found.argv.join(' ').slice(0, 200)}`);
    }
    if (i % 500 === 499) console.log(`${i + 1} …`);
  }
  const told = [...exits].map(([exit, n]) => `exit ${exit}: ${n}`).join(', ');
  console.log(`${seeds.length} cases, ${bad.length} with faults; ${told}; slowest ${slowest.toFixed(1)} s`);
  return bad;
}

const from = Number(values.from);
const range = (n: number, start: number): number[] => Array.from({ length: n }, (_, i) => start + i);
if (values.seed !== undefined) {
  const one = hard ? hardCase(Number(values.seed)) : await caseOf(Number(values.seed));
  if (values.show) console.log(JSON.stringify(one, null, 1));
  await through([one.seed], inProcess);
} else {
  const bad = await through(range(Number(values.cases), from), inProcess);
  const worse = await through(range(Number(values.processes), from + 1_000_000), asProcess);
  process.exitCode = bad.length + worse.length === 0 ? 0 : 1;
}
