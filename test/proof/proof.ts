import { parseArgs } from 'node:util';
import { isMainThread, parentPort, Worker, workerData } from 'node:worker_threads';
import { examine, type Finding, programOf } from './examine.js';
import { families } from './families/index.js';
import { missed, table, tally, trouble } from './tally.js';

/** Longer than this and a program counts as hung; its thread is ended and another goes on behind it. */
const HUNG = 30_000;

type Job = { family: string; number: number };

if (isMainThread) await main();
else await work(workerData as Job[]);

async function main(): Promise<void> {
  const { values } = parseArgs({
    options: {
      family: { type: 'string', default: '' },
      each: { type: 'string', default: '80' },
      number: { type: 'string' },
      from: { type: 'string', default: '1' },
      show: { type: 'boolean', default: false },
    },
  });
  const chosen = families.filter(({ name }) => name.includes(values.family));
  const numbers = values.number
    ? [Number(values.number)]
    : Array.from({ length: Number(values.each) }, (_, n) => n + Number(values.from));
  if (values.show)
    for (const family of chosen) for (const n of numbers) console.log(JSON.stringify(programOf(family, n)));
  const start = performance.now();
  const findings = await all(chosen.flatMap(({ name }) => numbers.map((number) => ({ family: name, number }))));
  const result = tally(findings);
  const failed = missed(result);
  for (const line of trouble(findings)) console.log(line);
  console.log(`\n${table(findings)}\n`);
  console.log(`${result.programs} programs in ${Math.round((performance.now() - start) / 1000)} s`);
  console.log(failed.length === 0 ? 'every aim kept' : `missed: ${failed.join('; ')}`);
  process.exitCode = failed.length === 0 ? 0 : 1;
}

/** One thread after another, until every program has been examined. */
async function all(jobs: readonly Job[]): Promise<Finding[]> {
  const findings: Finding[] = [];
  while (findings.length < jobs.length) {
    await thread(jobs.slice(findings.length), (finding) => findings.push(finding));
    const job = jobs[findings.length];
    if (job) findings.push({ ...job, verdict: 'hung', truth: 'unknown', fault: 'no answer', milliseconds: HUNG });
  }
  return findings;
}

function thread(jobs: readonly Job[], take: (finding: Finding) => void): Promise<void> {
  return new Promise((resolve) => {
    const worker = new Worker(new URL(import.meta.url), { workerData: jobs });
    const end = () => void worker.terminate();
    let watch = setTimeout(end, HUNG);
    worker.on('message', (finding: Finding) => {
      take(finding);
      clearTimeout(watch);
      watch = setTimeout(end, HUNG);
    });
    worker.on('error', (error) => console.error(error));
    worker.on('exit', () => {
      clearTimeout(watch);
      resolve();
    });
  });
}

async function work(jobs: readonly Job[]): Promise<void> {
  const byName = new Map(families.map((family) => [family.name, family]));
  for (const { family, number } of jobs) parentPort!.postMessage(await examine(byName.get(family)!, number));
}
