import { mkdirSync, readFileSync, writeFileSync } from 'node:fs';
import { join, resolve } from 'node:path';
import { build } from 'esbuild';
import { foldJournal } from '../../src/year/journal/read.js';
import { stockChanges } from '../../src/year/journal/stock.js';
import { started } from './started.js';

/** What became of a journal to which dying processes added. */
export interface KilledJournal {
  runs: number;
  /** Numbers that a process was told were on the disk. */
  acknowledged: number;
  /** Of them, those that are not there. */
  lost: number[];
  /** Entries that can be read. */
  entries: number;
  /** g of sample-base counted off by them, and by the entries themselves. */
  used: number;
  summed: number;
  problems: string[];
  lines: string[];
}

const SHELF = 'id,name,form,N,on_hand\nsample-base,Sample Base,powder,6,500 kg\n';

/** The command itself, as one that adds until it is killed: each entry is acknowledged once the command has answered. */
export async function adding(folder: string, count = Infinity): Promise<string> {
  mkdirSync(folder, { recursive: true });
  writeFileSync(join(folder, 'shelf.csv'), SHELF);
  const entry = join(folder, 'adds.ts');
  const run = resolve('src/cli/run.ts');
  writeFileSync(
    entry,
    `import { run } from ${JSON.stringify(run)};
     const io = { stdout: (text) => { said += text; }, stderr: (text) => process.stderr.write(text), env: {}, cwd: ${JSON.stringify(folder)}, isTTY: false, now: () => new Date(2026, 4, 1) };
     let said = '';
     for (let i = 0; i < ${count === Infinity ? 'Infinity' : count}; i += 1) {
       said = '';
       const exit = await run(['journal', 'add', '--bought', '1 g sample-base', '--note', 'x'.repeat(300) + ', "' + process.argv[2] + '"', '--json'], io);
       if (exit !== 0) process.exit(exit);
       process.stdout.write(JSON.parse(said).entry + '\\n');
     }`,
  );
  const program = `${folder}-program`;
  await build({
    entryPoints: [entry],
    bundle: true,
    // what the command loads only when it needs it is loaded so here too
    splitting: true,
    platform: 'node',
    format: 'esm',
    outdir: program,
    outExtension: { '.js': '.mjs' },
    external: ['highs'],
    // some packages ask for parts of Node in its older way
    banner: {
      js: "import { createRequire as requiring } from 'node:module'; const require = requiring(import.meta.url);",
    },
    logLevel: 'error',
  });
  return join(program, 'adds.mjs');
}

const wait = (ms: number) => new Promise((done) => setTimeout(done, ms));

/** A seeded wait between 0 and `most` milliseconds. */
function waits(seed: number, most: number): () => number {
  let state = seed;
  return () => {
    state = (state * 1103515245 + 12345) % 2 ** 31;
    return (state / 2 ** 31) * most;
  };
}

/** A process that ends by itself was not killed. */
const fell = (code: number | null): never => {
  throw new Error(`a process that adds ended by itself, with ${code}`);
};

/** So many processes, two at a time, killed at random moments while they add to one journal. */
export async function killWhileAdding(folder: string, runs: number, seed: number): Promise<KilledJournal> {
  const adds = await adding(folder);
  const next = waits(seed, 120);
  const acknowledged: number[] = [];
  for (let run = 0; run < runs; run += 2) {
    const both = [started(adds, [`${run}`]), started(adds, [`${run + 1}`])];
    await Promise.all(both.map(({ speaks, ended }) => Promise.race([speaks, ended.then(fell)])));
    await wait(next());
    for (const { child } of both) {
      child.kill('SIGKILL');
      await wait(next() / 20);
    }
    await Promise.all(both.map(({ ended }) => ended));
    for (const { said } of both) acknowledged.push(...said().split('\n').slice(0, -1).map(Number));
  }
  return { ...readBack(folder, acknowledged), runs };
}

/** The journal as it stands, against what was acknowledged. */
export function readBack(folder: string, acknowledged: readonly number[]): Omit<KilledJournal, 'runs'> {
  const text = readFileSync(join(folder, 'journal.csv'), 'utf8');
  const journal = { name: 'journal.csv', text };
  const there = new Set<number>();
  let summed = 0;
  const read = foldJournal(journal, ({ entry, items }) => {
    there.add(entry);
    summed += items[0]!.amount;
  });
  const stock = stockChanges(journal);
  return {
    acknowledged: acknowledged.length,
    lost: acknowledged.filter((entry) => !there.has(entry)),
    entries: there.size,
    used: stock.ok ? stock.value[0]!.bought : 0,
    summed,
    // half a line at the very end is no fault: it was not acknowledged, and goes at the next entry
    problems: read.ok ? [] : read.problems.map(({ code, where }) => `${code} in line ${where.line}`),
    lines: text.split('\n').slice(0, -1),
  };
}
