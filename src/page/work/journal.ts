import { costOfJournal, potsOfJournal, showJournal, stockOf } from '../../desk/journal/views.js';
import type { Problem } from '../../problem.js';
import { journalCostSheet, journalSheet, journalStockSheet } from '../../report/journal.js';
import { journalPotSheet } from '../../report/journal-pots.js';
import { journalSvg } from '../../report/journal-svg.js';
import type { Block } from '../../report/sheet.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

export type JournalLook = 'journal' | 'stock' | 'pots' | 'cost';

/** A view of the journal, as the command line's `journal` prints it. */
export interface JournalView {
  title: string;
  blocks: Block[];
  /** The readings over time as a picture; null where the view has none. */
  picture: string | null;
  warnings: readonly Problem[];
}

export async function journalQuestion(asked: {
  texts: BenchTexts;
  look: JournalLook;
  /** True: every entry, else the newest. */
  all?: boolean;
}): Promise<JournalView> {
  const files = filesOf(asked.texts);
  switch (asked.look) {
    case 'journal': {
      const { result, warnings } = showJournal(files, asked.all ? { last: 'all' } : {});
      const isRead = result.feeds.some(({ points }) => points.length > 0);
      return { ...journalSheet(result), picture: isRead ? journalSvg(result.feeds, result.scale) : null, warnings };
    }
    case 'stock': {
      const { result, warnings } = stockOf(files, {});
      return { ...journalStockSheet(result), picture: null, warnings };
    }
    case 'pots': {
      const { result, warnings } = potsOfJournal(files, {});
      return { ...journalPotSheet(result), picture: null, warnings };
    }
    case 'cost': {
      const { result, warnings } = costOfJournal(files, {});
      return { ...journalCostSheet(result), picture: null, warnings };
    }
    default:
      return asked.look satisfies never;
  }
}
