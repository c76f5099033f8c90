import { entryFor } from '../../desk/journal/add.js';
import { undoing } from '../../desk/journal/undo.js';
import type { Wishes } from '../../desk/wishes.js';
import type { Problem } from '../../problem.js';
import { journalEntrySheet } from '../../report/journal.js';
import type { Block } from '../../report/sheet.js';
import { withEntry } from '../../year/journal/write.js';
import type { BenchTexts } from '../state.js';
import { filesOf } from './files.js';

/** What is to be written down: the journal as it is now, bench and shelf as they were when it was done. */
export interface RecordAsked {
  texts: BenchTexts;
  /** As `journal add` takes them: a batch, what was bought, what was counted; or the number of an entry to be undone. */
  wishes: Wishes;
  undo?: string;
  /** The day, `2026-11-28`. */
  on: string;
}

/** The journal with an entry more, and what is told of it. */
export interface RecordView {
  journal: string;
  title: string;
  blocks: Block[];
  warnings: readonly Problem[];
}

/** What `journal add` or `journal undo` would write; nothing is written here. */
export async function recordQuestion({ texts, wishes, undo, on }: RecordAsked): Promise<RecordView> {
  const files = filesOf(texts);
  const { result, warnings } =
    undo === undefined ? await entryFor(files, wishes, on) : undoing(files, wishes, undo, on);
  const { entry, text } = withEntry(texts['journal.csv'] ?? '', result.draft, 'journal.csv');
  const { title, blocks } = journalEntrySheet({ ...result, entry });
  // that it can be undone is told by a button here
  return { journal: text, title, blocks: blocks.slice(0, -1), warnings };
}
