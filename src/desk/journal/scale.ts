import { readBench } from '../../catalog/bench.js';
import type { Catalog } from '../../catalog/catalog.js';
import type { BenchFiles } from '../bench-files.js';
import { type Scale, scaleOf } from '../options/pen.js';

/**
 * ppm per mS/cm of the bench's pen, null where it shows EC. The journal is read back whatever stands in bench.yaml: of one that cannot be
 * read it speaks in mS/cm, as journal.csv does.
 */
export function scaleOfBench({ bench }: BenchFiles, catalog: Catalog): Scale {
  const read = bench && readBench(bench.text, bench.name, catalog);
  return read?.ok ? scaleOf(read.value.pen) : null;
}
