import { identityOf } from '../../units/index.js';
import type { Draft, JournalItem } from '../../year/journal/entry.js';
import { type StockLeft, stockChanges, stockLeft } from '../../year/journal/stock.js';
import { withEntry } from '../../year/journal/write.js';
import type { BenchFiles } from '../bench-files.js';
import { Collected } from '../collected.js';
import { readShelf } from '../shelf.js';

/** What is left of these products once an entry stands in the journal; nothing where the shelf cannot be read, which is told elsewhere. */
export function stockAfter(files: BenchFiles, draft: Draft, items: readonly JournalItem[]): StockLeft[] {
  const name = files.journal?.name ?? 'journal.csv';
  const { products } = readShelf(files.shelf ?? null, new Collected());
  const ids = new Set(items.map(({ id }) => identityOf(id)));
  const own = products.filter(({ id }) => ids.has(identityOf(id)));
  const changes = stockChanges({ name, text: withEntry(files.journal?.text ?? '', draft, name).text });
  return changes.ok ? stockLeft(own, changes.value) : [];
}
