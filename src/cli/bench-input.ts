import { join } from 'node:path';
import { readBench } from '../catalog/bench.js';
import type { Bench } from '../catalog/bench-types.js';
import type { Catalog } from '../catalog/catalog.js';
import { problem } from '../problem.js';
import type { Collected } from './collect.js';
import type { Given } from './command.js';
import { isFile, isFolder, readText } from './files.js';
import type { Io } from './io.js';

/** The bench of the command, or null where there is none to be read. */
export interface BenchInput {
  /** As the grower would write it; empty for the current folder. */
  folder: string;
  bench: Bench | null;
  /** True where a bench was meant but could not be read; what it would have said is then not missed. */
  faulty: boolean;
}

/** Reads bench.yaml of --bench, or of the current folder where it is there. */
export function benchInput(given: Given, io: Io, catalog: Catalog, collected: Collected): BenchInput {
  const asked = given.text('bench');
  const folder = asked ?? '';
  const file = join(folder, 'bench.yaml');
  if (asked !== undefined && !isFolder(asked, io.cwd)) {
    collected.add(
      problem(
        'no-such-folder',
        { field: '--bench' },
        `"${asked}"`,
        'a folder with bench.yaml',
        'Check the name and the folder you are in.',
      ),
    );
    return { folder, bench: null, faulty: true };
  }
  if (asked === undefined && !isFile(file, io.cwd)) return { folder, bench: null, faulty: false };
  const text = collected.attempt(() => readText(file, io.cwd));
  const bench = text && collected.take(readBench(text.text, text.name, catalog));
  return { folder, bench: bench ?? null, faulty: bench === undefined };
}
