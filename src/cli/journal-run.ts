import { entryFor } from '../desk/journal/add.js';
import { undoing } from '../desk/journal/undo.js';
import { costOfJournal, potsOfJournal, showJournal, stockOf } from '../desk/journal/views.js';
import type { Wishes } from '../desk/wishes.js';
import type { Problem } from '../problem.js';
import { journalCostJson, journalJson, journalPotJson, journalStockJson } from '../report/json/journal.js';
import { journalCostSheet, journalSheet, journalStockSheet } from '../report/journal.js';
import { journalPotSheet } from '../report/journal-pots.js';
import { journalPage } from '../report/journal-page.js';
import { journalSvg } from '../report/journal-svg.js';
import { benchTexts } from './bench-texts.js';
import type { Given, Outcome } from './command.js';
import { ofSheets } from './forms.js';
import type { Io } from './io.js';
import type { View } from './journal-views.js';
import { written } from './journal-write.js';
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
      const page = { html: journalPage(sheet, result), svg: () => journalSvg(result.feeds, result.scale) };
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
    case 'pot': {
      const { result, warnings } = potsOfJournal(files, potNamed(wishes, given.operands[1]));
      return { exit: 0, forms: ofSheets(journalPotJson(result), [journalPotSheet(result)]), warnings };
    }
    default:
      return view satisfies never;
  }
}

/** A pot is named behind the view, or by its option. */
const potNamed = (wishes: Wishes, name: string | undefined): Wishes =>
  name === undefined ? wishes : { ...wishes, pot: name };

/** The day where the grower is. */
const dayOf = (now: Date): string =>
  [now.getFullYear(), now.getMonth() + 1, now.getDate()].map((part) => String(part).padStart(2, '0')).join('-');
