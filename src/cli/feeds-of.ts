import { join } from 'node:path';
import { readBench } from '../catalog/bench.js';
import type { Catalog } from '../catalog/catalog.js';
import { isFile, readText } from '../files/index.js';
import { Refusal } from '../problem.js';
import type { Io } from './io.js';

/** The feeds of the bench that is meant; none where it cannot be read. */
export function feedsOf(catalog: Catalog, line: readonly string[], io: Io): string[] {
  const at = line.indexOf('--bench');
  const file = join(at < 0 ? '' : (line[at + 1] ?? ''), 'bench.yaml');
  if (!isFile(file, io.cwd)) return [];
  try {
    const bench = readBench(readText(file, io.cwd).text, file, catalog);
    return bench.ok ? bench.value.feeds.map(({ name }) => name) : [];
  } catch (fault) {
    if (fault instanceof Refusal) return [];
    throw fault;
  }
}
