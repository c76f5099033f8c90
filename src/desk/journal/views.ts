import type { Catalog } from '../../catalog/catalog.js';
import { identityOf } from '../../units/index.js';
import { journalCost } from '../../year/journal/cost.js';
import { foldJournal, type JournalSize } from '../../year/journal/read.js';
import type { JournalCost, JournalPots, JournalShown, JournalStock } from '../../year/journal/results.js';
import { compiledPractice } from '../../year/compiled-practice.js';
import { potsOf } from '../../year/journal/pots.js';
import { shownJournal } from '../../year/journal/shown.js';
import { type StockChange, stockLeft, stockWith } from '../../year/journal/stock.js';
import type { Answer } from '../answer.js';
import type { BenchFiles } from '../bench-files.js';
import { collecting } from '../collecting.js';
import { benchAndShelf } from '../opened.js';
import { shippedCatalog } from '../shipped-catalog.js';
import type { Wishes } from '../wishes.js';
import { journalNeeded, settled } from './journal-of.js';
import { scaleOfBench } from './scale.js';

/** How many entries are shown where nobody says. */
const USUAL = 20;

/** The newest entries of the journal, and what each feed read over time. @throws Refusal with every line that cannot be read */
export function showJournal(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Answer<JournalShown> {
  const collected = collecting(files, wishes);
  const last = collected.wish(wishes, 'last') ?? USUAL;
  const journal = journalNeeded(files, collected);
  const shown = journal && collected.take(shownJournal(journal, { last, feed: wishes.feed ?? null }));
  const result = { ...settled(shown, collected), scale: scaleOfBench(files, catalog) };
  return { met: true, result, warnings: [...collected.problems] };
}

/**
 * What is left of every product: what the shelf says was there at the journal's first line, or what was counted last, with all that was
 * bought and used since. @throws Refusal with every problem of shelf and journal
 */
export function stockOf(files: BenchFiles, wishes: Wishes, catalog: Catalog = shippedCatalog()): Answer<JournalStock> {
  const collected = collecting(files, wishes);
  const journal = journalNeeded(files, collected);
  // as the shelf has it, before the journal
  const { journal: _, ...texts } = files;
  const { shelf } = benchAndShelf(texts, wishes, catalog, collected, true);
  const stock = new Map<string, StockChange>();
  const size: JournalSize | undefined =
    journal &&
    collected.take(
      foldJournal(journal, (entry, isLive) => {
        if (isLive) stockWith(stock, entry);
      }),
    );
  const changes = [...new Set(stock.values())];
  const known = new Set(shelf.products.map(({ id }) => identityOf(id)));
  const result: JournalStock = {
    status: 'counted',
    file: journal?.name ?? '',
    shelf: shelf.name,
    size: settled(size, collected),
    lines: stockLeft(shelf.products, changes),
    others: changes.filter(({ id }) => !known.has(identityOf(id))),
  };
  return { met: true, result, warnings: [...collected.problems] };
}

/** What the batches cost, month by month. @throws Refusal with every line that cannot be read */
export function costOfJournal(files: BenchFiles, wishes: Wishes): Answer<JournalCost> {
  const collected = collecting(files, wishes);
  const journal = journalNeeded(files, collected);
  const wanted = wishes.feed === undefined ? null : identityOf(wishes.feed);
  const isMeant = (name: string): boolean => wanted === null || identityOf(name) === wanted;
  const result = settled(journal && collected.take(journalCost(journal, isMeant)), collected);
  return { met: true, result, warnings: [...collected.problems] };
}

/**
 * How pots stand by what ran out of them: build-up against what they are fed, how much to flush, when to go on.
 * @throws Refusal with every line that cannot be read
 */
export function potsOfJournal(
  files: BenchFiles,
  wishes: Wishes,
  catalog: Catalog = shippedCatalog(),
): Answer<JournalPots> {
  const collected = collecting(files, wishes);
  const journal = journalNeeded(files, collected);
  const pots = journal && collected.take(potsOf(journal, compiledPractice.flushes, wishes.pot?.trim() ?? null));
  const result = { ...settled(pots, collected), scale: scaleOfBench(files, catalog) };
  return { met: true, result, warnings: [...collected.problems] };
}
