import { entryFor, type ReadyEntry } from '../desk/journal/add.js';
import { undoing } from '../desk/journal/undo.js';
import { costOfJournal, showJournal, stockOf } from '../desk/journal/views.js';
import { appendLines } from '../files/index.js';
import type { Problem } from '../problem.js';
import { journalCostJson, journalEntryJson, journalJson, journalStockJson } from '../report/json/journal.js';
import { journalCostSheet, journalEntrySheet, journalSheet, journalStockSheet } from '../report/journal.js';
import { journalPage } from '../report/journal-page.js';
import { journalSvg } from '../report/journal-svg.js';
import { HEAD, isWhole } from '../year/journal/layout.js';
import { lineOf } from '../year/journal/write.js';
import { benchTexts, journalPath } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import type { View } from './journal-views.js';
import { wishesOf } from './wishes.js';

/** One view of the journal, or an entry more. */
export async function runView(view: View, given: Given, io: Io, problems: readonly Problem[]): Promise<Outcome> {
  const files = benchTexts(given, io, problems);
  const wishes = wishesOf(given);
  const today = dayOf(io.now());
  switch (view) {
    case 'add':
      return written(await entryFor(files, wishes, today), given, io);
    case 'undo':
      return written(undoing(files, wishes, given.operands[1], today), given, io);
    case 'show': {
      const { result, warnings } = showJournal(files, wishes);
      const sheet = journalSheet(result);
      const forms = ofSheets(journalJson(result), [sheet]);
      const page = { html: journalPage(sheet, result), svg: () => journalSvg(result.feeds) };
      return { exit: 0, forms: { ...forms, ...page }, warnings };
    }
    case 'stock': {
      const { result, warnings } = stockOf(files, wishes);
      return { exit: 0, forms: ofSheets(journalStockJson(result), [journalStockSheet(result)]), warnings };
    }
    case 'cost': {
      const { result, warnings } = costOfJournal(files, wishes);
      return { exit: 0, forms: ofSheets(journalCostJson(result), [journalCostSheet(result)]), warnings };
    }
    default:
      return view satisfies never;
  }
}

/** The day where the grower is. */
const dayOf = (now: Date): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');

/** Written at the end of the journal, with the number that comes next there; it is on the disk before anything is said. */
function written({ result, warnings }: ReadyEntry, { words }: Given, io: Io): Outcome {
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
