import type { ReadyEntry } from '../desk/journal/add.js';
import { appendLines } from '../files/index.js';
import { journalEntrySheet } from '../report/journal.js';
import { journalEntryJson } from '../report/json/journal.js';
import { HEAD, isWhole } from '../year/journal/layout.js';
import { lineOf } from '../year/journal/write.js';
import { journalPath } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';

/** Written at the end of the journal, with the number that comes next there; it is on the disk before anything is said. */
export function written({ result, warnings }: ReadyEntry, { words }: Given, io: Io): Outcome {
  const path = journalPath(words);
  let entry = 0;
  appendLines(
    path,
    {
      head: [],
      isWhole,
      lines: (standing) => {
        const made = lineOf(result.draft, standing, path);
        entry = made.entry;
        return standing.head === '' ? [HEAD, made.line] : [made.line];
      },
    },
    io.cwd,
  );
  const added = { ...result, entry, file: path };
  return { exit: 0, forms: ofSheets(journalEntryJson(added), [journalEntrySheet(added)]), warnings };
}
