import type { Checked, Problem } from '../problem.js';
import { BENCH } from './bench-keys.js';
import { readFeeds } from './bench-feeds.js';
import { readKit, readPen } from './bench-kit.js';
import { readSeason } from './bench-season.js';
import type { Bench } from './bench-types.js';
import { readBenchWaters } from './bench-water.js';
import type { Catalog } from './catalog.js';
import { capped } from './limits.js';
import { readSection } from './section.js';
import { childOf, readPage } from './yaml.js';

/**
 * Reads `bench.yaml`. Names of plants, media, phases and waters are looked up in the catalog; every unknown name, misspelt key,
 * bare gallon, missing unit and faulty rule is a Problem with its line.
 * @param file name of the file, for the Problems
 */
export function readBench(text: string, file: string, catalog: Catalog): Checked<Bench> {
  const problems: Problem[] = [];
  const bench: Bench = { name: '', currency: '', waters: [], kit: { spoons: [] }, pen: { reads: 'EC' }, feeds: [] };
  const page = readPage(text, file, problems);
  const top = page && readSection(page, BENCH, problems);
  if (!page || !top) return capped(bench, problems);
  bench.name = String(top.name ?? '');
  bench.currency = String(top.currency ?? '');
  if (top.law !== undefined) bench.law = String(top.law).toLowerCase() === 'eu' ? 'eu' : 'us';
  if (top.water !== undefined)
    bench.waters = readBenchWaters(childOf(page, 'water'), catalog, bench.currency, problems);
  if (top.kit !== undefined) bench.kit = readKit(childOf(page, 'kit'), problems);
  bench.namesPen = top.pen !== undefined;
  if (top.pen !== undefined) bench.pen = readPen(childOf(page, 'pen'), problems);
  if (top.season !== undefined) bench.season = readSeason(childOf(page, 'season'), problems);
  if (top.feeds !== undefined) bench.feeds = readFeeds(childOf(page, 'feeds'), catalog, problems);
  return capped(bench, problems);
}
