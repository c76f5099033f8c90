import type { Catalog } from '../../catalog/catalog.js';
import type { Draft } from '../../year/journal/entry.js';
import type { BenchFiles } from '../bench-files.js';
import type { Collected } from '../collected.js';
import type { Wishes } from '../wishes.js';

/** What every sort of entry is made from. */
export interface EntryAsked {
  files: BenchFiles;
  wishes: Wishes;
  catalog: Catalog;
  collected: Collected;
  begun: (kind: Draft['kind']) => Draft;
}
