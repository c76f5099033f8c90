/**
 * `journal stock` of a journal of 100,000 entries beside csv-parse alone over the same text, in pairs of one process and in pairs of whole
 * cold processes. It is to take three times as long at most; `npm run bench` prints the ratio, and what the fold keeps in memory.
 */
import { execFileSync, spawnSync } from 'node:child_process';
import { mkdtempSync, writeFileSync } from 'node:fs';
import { tmpdir } from 'node:os';
import { join } from 'node:path';
import { parse } from 'csv-parse/sync';
import { bench, describe } from 'vitest';
import { stockChanges } from '../../src/year/journal/stock.js';
import { longJournal } from './long-journal.js';

const ENTRIES = 100_000;
const PAIRS = 9;
/** MB. */
const HEAP = 64;
const text = longJournal(ENTRIES);
const root = join(import.meta.dirname, '../..');

const alone = (): number => {
  let records = 0;
  parse(text, {
    on_record: () => {
      records += 1;
      return null;
    },
  });
  return records;
};
const stock = () => stockChanges({ name: 'journal.csv', text });

const timed = (work: () => unknown): number => {
  const start = performance.now();
  work();
  return performance.now() - start;
};
const median = (values: readonly number[]): number => [...values].sort((a, b) => a - b)[values.length >> 1]!;

/** One and the other in turns, so that a machine that slows down favours neither. */
function pairsOf(ours: () => unknown, theirs: () => unknown): { ours: number; theirs: number; ratio: number } {
  const pairs = Array.from({ length: PAIRS }, (_, i) => {
    if (i % 2 === 0) return { ours: timed(ours), theirs: timed(theirs) };
    const after = timed(theirs);
    return { ours: timed(ours), theirs: after };
  });
  return {
    ours: median(pairs.map((pair) => pair.ours)),
    theirs: median(pairs.map((pair) => pair.theirs)),
    ratio: median(pairs.map((pair) => pair.ours / pair.theirs)),
  };
}

function tell(what: string, { ours, theirs, ratio }: ReturnType<typeof pairsOf>): void {
  console.log(
    `${what}, median of ${PAIRS} pairs: journal stock ${ours.toFixed(0)} ms, csv-parse alone ${theirs.toFixed(0)} ms, ratio ${ratio.toFixed(2)} (at most 3)`,
  );
}

console.log(`a journal of ${ENTRIES} entries, ${(text.length / 1e6).toFixed(1)} MB`);
for (const warm of [stock, alone]) warm();
tell('one process', pairsOf(stock, alone));

execFileSync(process.execPath, ['build.mjs', '--no-types'], { cwd: root });
const home = mkdtempSync(join(tmpdir(), 'velamen-long-'));
writeFileSync(join(home, 'journal.csv'), text);
writeFileSync(
  join(home, 'shelf.csv'),
  'id,form,N,on_hand\nsample-base,powder,6,500 kg\nsample-calcium,powder,11,500 kg\n',
);
const reader = join(home, 'read.mjs');
writeFileSync(
  reader,
  `import { readFileSync } from 'node:fs';
import { parse } from ${JSON.stringify(join(root, 'node_modules/csv-parse/lib/sync.js'))};
let n = 0;
parse(readFileSync('journal.csv', 'utf8'), { on_record: () => { n += 1; return null; } });
process.stdout.write(String(n));`,
);
function cold(...words: string[]): void {
  const { status, stderr } = spawnSync(process.execPath, words, { cwd: home, encoding: 'utf8' });
  if (status !== 0) throw new Error(stderr);
}
tell(
  'whole processes',
  pairsOf(
    () => cold(join(root, 'dist/cli.js'), 'journal', 'stock'),
    () => cold(reader),
  ),
);

// the text itself, its bytes as they were read, and what is garbage by then; entries that were kept would take some 300 MB more
cold(`--max-old-space-size=${HEAP}`, join(root, 'dist/cli.js'), 'journal', 'stock');
console.log(`it runs within a heap of ${HEAP} MB, ${((1e6 * HEAP) / ENTRIES).toFixed(0)} bytes an entry`);

describe('a journal of 100,000 entries', () => {
  bench('stock', () => void stock(), { iterations: 3, time: 0 });
  bench('csv-parse alone', () => void alone(), { iterations: 3, time: 0 });
});
