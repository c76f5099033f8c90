import { atDoor } from '../../door.js';
import type { Catalog } from '../../catalog/catalog.js';
import { problem } from '../../problem.js';
import { blank, type Entry } from '../../year/journal/entry.js';
import { foldJournal } from '../../year/journal/read.js';
import type { BenchFiles } from '../bench-files.js';
import { collecting } from '../collecting.js';
import type { Wishes } from '../wishes.js';
import type { ReadyEntry } from './add.js';
import { shippedCatalog } from '../shipped-catalog.js';
import { journalNeeded, settled } from './journal-of.js';
import { scaleOfBench } from './scale.js';
import { stockAfter } from './stock-after.js';

/**
 * An entry that undoes an earlier one: that counts as if it had never been written, and stands in the journal still. To undo an undoing
 * brings it back. @param number of the entry, as it was typed
 * @throws Refusal with every problem, and where there is no such entry or it is undone already
 */
export function undoing(
  files: BenchFiles,
  wishes: Wishes,
  number: string | undefined,
  today: string,
  catalog: Catalog = shippedCatalog(),
): ReadyEntry {
  const collected = collecting(files, wishes);
  const date = collected.wish(wishes, 'on') ?? today;
  const note = collected.wish(wishes, 'note') ?? '';
  const needed = journalNeeded(files, collected);
  if (number === undefined || !/^[1-9]\d{0,8}$/.test(number.trim()))
    collected.add(
      problem(
        'entry-number',
        {},
        number === undefined ? 'no number' : `"${number}"`,
        'the number of the entry to undo',
        atDoor({
          typed: 'Write for example velamen journal undo 17; velamen journal show tells the numbers.',
          page: 'Write for example 17: the numbers stand in Year, Journal.',
        }),
      ),
    );
  const journal = settled(needed, collected);
  const of = Number(number);
  let found: { entry: Entry; isLive: boolean } | undefined;
  const size = collected.take(
    foldJournal(journal, (entry, isLive) => {
      if (entry.entry === of) found = { entry, isLive };
    }),
  );
  if (size && !found) collected.add(noSuch(of, size.last));
  if (found && !found.isLive) collected.add(undoneAlready(of));
  const undone = settled(found, collected).entry;
  const draft = { ...blank('undo', date), of, note, feed: undone.feed };
  return {
    result: {
      status: 'undone',
      file: journal.name,
      draft,
      stock: stockAfter(files, draft, undone.items),
      within: null,
      undone,
      stands: null,
      scale: scaleOfBench(files, catalog),
    },
    warnings: [...collected.problems],
  };
}

const noSuch = (of: number, last: number) =>
  problem(
    'entry-number',
    {},
    `entry ${of}`,
    last === 0 ? 'an entry; there is none yet' : `an entry from 1 to ${last}`,
    atDoor({ typed: 'velamen journal show tells the numbers.', page: 'The numbers stand in Year, Journal.' }),
  );

const undoneAlready = (of: number) =>
  problem(
    'undone-already',
    {},
    `entry ${of}, which is undone`,
    'an entry that counts',
    'Undo the entry that undid it, if it is to count again.',
  );
